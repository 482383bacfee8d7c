// The app as a child process of the benchmark: `node app-server.js <database url>`; prints its address.
import { randomBytes } from 'node:crypto';

import { createApp } from '#app/create-app.js';
import { SystemClock } from '#app/shared/clock.js';

const [appUrl] = process.argv.slice(2);
const app = await createApp({
  appUrl: appUrl!,
  publicUrl: 'http://localhost',
  sealKey: randomBytes(32),
  // Counted as always, but one token asks for all of it here.
  limits: { accountPerMinute: 1e9 },
  clock: new SystemClock(),
});
await app.listen(0, '127.0.0.1');
process.stdout.write(`${await app.getUrl()}\n`);
