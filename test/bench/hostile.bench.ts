import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { HOSTILE } from '../locator/hostile-requests.js';

const CASE = fileURLToPath(new URL('hostile-case.js', import.meta.url));
const HEAP_MB = 512;

/** Each in a process of its own that ends beyond 512 MB of heap: a cold start, as a thread of the pool has it. */
export function benchHostile(log: (line: string) => void): void {
  log(`requests that are meant to cost much, each within ${HEAP_MB} MB of heap (aim: 2 s):`);
  for (const name of Object.keys(HOSTILE)) {
    const options = [`--max-old-space-size=${HEAP_MB}`, CASE, name];
    const told = execFileSync(process.execPath, options, { encoding: 'utf8' });
    const { milliseconds, processor, megabytes, said } = JSON.parse(told) as {
      milliseconds: number;
      /** Of all threads: the compiler's and the collector's too. */
      processor: number;
      megabytes: number;
      said: string;
    };
    log(
      `  ${milliseconds.toFixed(0).padStart(5)} ms ${processor.toFixed(0).padStart(5)} ms of the processor ${megabytes.toFixed(0).padStart(4)} MB  ${name}: ${said}`,
    );
  }
}
