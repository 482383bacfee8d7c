// npm run add-firm -- "<firm>" "<owner's name>" <owner's e-mail>
// Adds a firm to the installation that the environment names, and prints the link by which its owner
// chooses a password: on the terminal alone, it is a secret.
import { uuidv7 } from 'uuidv7';
import { SetUpService } from './access/set-up.service.js';
import { readConfig } from './config.js';
import { createApp } from './create-app.js';
import { migrate } from './database/migrate.js';
import { readSealKey } from './seal-key.js';
import { SystemClock } from './shared/clock.js';
import { openDatabase } from './open-database.js';

const print = (line: string) => process.stdout.write(`${line}\n`);

async function addFirm([firmName, name, email]: string[]): Promise<void> {
  if (!firmName || !name || !email) {
    throw new Error('Usage: npm run add-firm -- "<firm>" "<owner’s name>" <owner’s e-mail>');
  }
  const config = readConfig(process.env);
  if (config.publicUrl === undefined && config.port === 0) {
    throw new Error('With PORT=0 the link needs PUBLIC_URL: where people reach the service');
  }
  const publicUrl = config.publicUrl ?? `http://${config.host}:${config.port}`;
  const database = await openDatabase(config, () => undefined);
  try {
    await migrate(database.ownerUrl, database.appUrl);
    const app = await createApp({
      appUrl: database.appUrl,
      publicUrl,
      sealKey: await readSealKey(config.sealKey, config.dataDirectory),
      clock: new SystemClock(),
    });
    try {
      const firmId = uuidv7();
      const link = await app.get(SetUpService).addFirm(firmId, firmName, { name, email });
      print(`Added ${firmName} as ${firmId}.`);
      print(`${name} chooses a password within seven days at ${link}`);
    } finally {
      await app.close();
    }
  } finally {
    await database.stop();
  }
}

try {
  await addFirm(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
