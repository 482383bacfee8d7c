import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

import { expect, it } from '@jest/globals';

interface Told {
  success: boolean;
  testResults: { assertionResults: { title: string; status: string }[] }[];
}

const CONFIG = {
  rootDir: process.cwd(),
  roots: ['<rootDir>/dist-test/runner'],
  testMatch: ['**/goes-wrong.js'],
  testEnvironment: '<rootDir>/dist-test/runner/kept-environment.js',
  runtime: '<rootDir>/dist-test/runner/kept-runtime.js',
  transform: {},
  injectGlobals: false,
};

it('tells what fails in a file that Node loads', async () => {
  const jest = ['scripts/jest.mjs', '--config', JSON.stringify(CONFIG), '--json', '--runInBand'];
  const run = promisify(execFile)(process.execPath, ['--experimental-vm-modules', ...jest]);
  const { code, stdout } = await run.then(
    (ended) => ({ code: 0, ...ended }),
    (error: { code: number; stdout: string }) => error,
  );
  expect(code).toBe(1);
  const { success, testResults } = JSON.parse(stdout) as Told;
  expect(success).toBe(false);
  const told = testResults.flatMap((file) => file.assertionResults);
  expect(told.map(({ title, status }) => `${title}: ${status}`)).toEqual([
    'holds: passed',
    'does not hold: failed',
    'rejects: failed',
    'throws: failed',
    'asserts less than it said: failed',
  ]);
});
