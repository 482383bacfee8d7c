import type * as Globals from '@jest/globals';

/**
 * What `@jest/globals` is to a file that Node itself loads (`place-jest-globals`): bindings that are set anew for each test file,
 * so that what several files import (test/support) has those of the file that runs.
 */
export let afterAll: typeof Globals.afterAll;
export let afterEach: typeof Globals.afterEach;
export let beforeAll: typeof Globals.beforeAll;
export let beforeEach: typeof Globals.beforeEach;
export let describe: typeof Globals.describe;
export let expect: typeof Globals.expect;
export let it: typeof Globals.it;
export let jest: KeptJest;
export let test: typeof Globals.test;

/** The part of Jest's own object that tests ask for; more is a line each here and in `kept-runtime`. */
export type KeptJest = Pick<
  typeof Globals.jest,
  'advanceTimersByTime' | 'fn' | 'spyOn' | 'useFakeTimers' | 'useRealTimers'
>;

export type FileGlobals = Omit<typeof Globals, 'jest'> & { jest: KeptJest };

export function setJestGlobals(globals: FileGlobals): void {
  ({ afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, jest, test } = globals);
}
