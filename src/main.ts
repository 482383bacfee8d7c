import { readConfig } from './config.js';
import { createJsonLog } from './observability/json-log.js';
import { start } from './start.js';
import { stopOnSignal } from './stop-on-signal.js';

try {
  const config = readConfig(process.env);
  const log = createJsonLog(config.logLevel);
  const say = (line: string) => log.info(line);
  const { address, stop } = await start(config, say, log);
  stopOnSignal(stop, say);
  say(`Lastheard serves on ${address} (API: ${address}/api/docs)`);
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
