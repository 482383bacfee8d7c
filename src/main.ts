import { readConfig } from './config.js';
import { createJsonLog } from './observability/json-log.js';
import { start } from './start.js';
import { stopOnSignal } from './stop-on-signal.js';

/** Whatever is still open then (a socket, a timer) must not keep a process alive that serves nothing. */
function end(error: unknown): void {
  const text = error instanceof Error ? error.message : String(error);
  process.stderr.write(`${text}\n`, () => process.exit(1));
}

try {
  const config = readConfig(process.env);
  const log = createJsonLog(config.logLevel);
  const say = (line: string) => log.info(line);
  const { address, firstStart, stop } = await start(config, { say, log, onLost: end });
  stopOnSignal(stop, say);
  say(`Lastheard serves on ${address} (API: ${address}/api/docs)`);
  if (firstStart !== undefined) {
    say(`Nobody can sign in yet. The first owner is made at ${firstStart}`);
  }
} catch (error) {
  end(error);
}
