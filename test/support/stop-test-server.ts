import { stopTestServer } from './start-test-server.js';

/** Jest's globalTeardown. */
export default stopTestServer;
