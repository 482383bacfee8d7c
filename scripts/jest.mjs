import { setFlagsFromString } from 'node:v8';

/**
 * Most of what tests run they run some hundred times: the compiler of Node 20 takes a fifth to a quarter of their time to
 * make that faster, and for nothing. Later ones (V8 12) wait by themselves, and know no such flag.
 */
const LATER_OPTIMISED = '--interrupt-budget=1000000';
const FIRST_THAT_WAITS = 12;

if (Number.parseInt(process.versions.v8) < FIRST_THAT_WAITS) {
  setFlagsFromString(LATER_OPTIMISED);
  // Jest starts its workers with these.
  process.execArgv.push(LATER_OPTIMISED);
}
await import('../node_modules/jest/bin/jest.js');
