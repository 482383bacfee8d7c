// Tests run on what tsc wrote: the same code as production, types already checked, no transformer.
const shared = { testEnvironment: 'node', transform: {}, injectGlobals: false };

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
  // Modules of files that ran stay in a worker's memory; a fresh worker is quicker than collecting them.
  workerIdleMemoryLimit: '512MB',
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
