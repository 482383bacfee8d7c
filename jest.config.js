// Tests run on what tsc wrote: the same code as production, types already checked, no transformer.
const shared = { testEnvironment: 'node', transform: {}, injectGlobals: false };

/** @type {import('jest').Config} */
export default {
  // Ends what hangs; it is no speed test, and the machine may be busy.
  testTimeout: 180_000,
  maxWorkers: 2,
  projects: [
    {
      ...shared,
      displayName: 'unit',
      roots: ['<rootDir>/dist'],
      testMatch: ['**/*.spec.js'],
    },
    {
      ...shared,
      displayName: 'whole',
      roots: ['<rootDir>/dist-test'],
      testMatch: ['**/*.test.js'],
      globalSetup: '<rootDir>/dist-test/support/start-test-server.js',
      globalTeardown: '<rootDir>/dist-test/support/stop-test-server.js',
    },
  ],
};
