import { readConfig } from './config.js';
import { start } from './start.js';
import { stopOnSignal } from './stop-on-signal.js';

const log = (line: string) => process.stdout.write(`${line}\n`);

try {
  const { address, stop } = await start(readConfig(process.env), log);
  stopOnSignal(stop, log);
  log(`Lastheard serves on ${address} (API: ${address}/api/docs)`);
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
