import { placeJestGlobals } from './scripts/place-jest-globals.mjs';

placeJestGlobals();

// Tests run on what tsc wrote: the same code as production, types already checked, no transformer.
const shared = {
  // Files of a worker share what they import: loading and compiling the app anew was a third of what they cost.
  testEnvironment: '<rootDir>/dist-test/runner/kept-environment.js',
  runtime: '<rootDir>/dist-test/runner/kept-runtime.js',
  transform: {},
  injectGlobals: false,
};

const withServer = {
  ...shared,
  testMatch: ['**/*.test.js'],
  globalSetup: '<rootDir>/dist-test/support/start-test-server.js',
  globalTeardown: '<rootDir>/dist-test/support/stop-test-server.js',
};

/** @type {import('jest').Config} */
export default {
  // Ends what hangs; it is no speed test, and the machine may be busy.
  testTimeout: 180_000,
  maxWorkers: 2,
  // A worker stays near 100 MB from file to file (`--logHeapUsage`), and what is not yet collected is much more after an oracle: only
  // one that keeps too much is replaced, as a fresh one loads and compiles everything anew.
  workerIdleMemoryLimit: '1GB',
  projects: [
    {
      ...shared,
      displayName: 'unit',
      // The pages run as Vite bundled them; what of them is pure is tried as tsc wrote it.
      roots: ['<rootDir>/dist', '<rootDir>/dist-test/web'],
      testMatch: ['**/*.spec.js'],
    },
    {
      ...withServer,
      displayName: 'whole',
      roots: ['<rootDir>/dist-test'],
      testPathIgnorePatterns: ['/dist-test/browser/'],
    },
    {
      // Needs a browser on the machine: `npm run test:browser`.
      ...withServer,
      displayName: 'browser',
      roots: ['<rootDir>/dist-test/browser'],
    },
  ],
};
