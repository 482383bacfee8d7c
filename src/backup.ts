// npm run backup FILE
// Writes the data of the installation that the environment names, and its seal key, to a new file; the app may run.
import { stat } from 'node:fs/promises';
import { makeBackup } from './backup/make-backup.js';
import { VERSION } from './backup/version.js';
import { readConfig } from './config.js';
import { findSealKey } from './seal-key.js';
import { openDatabase } from './open-database.js';

async function backUp([path, ...rest]: string[]): Promise<void> {
  if (!path || rest.length > 0) throw new Error('Usage: npm run backup FILE');
  const config = readConfig(process.env);
  const sealKey = await findSealKey(config.sealKey, config.dataDirectory);
  if (sealKey === undefined)
    throw new Error(
      `There is no SEAL_KEY and no seal-key in ${config.dataDirectory}: name the installation’s own, or its DATA_DIRECTORY`,
    );
  const database = await openDatabase(config, () => undefined);
  try {
    const { rows, sha256 } = await makeBackup(path, {
      ownerUrl: database.ownerUrl,
      sealKey: sealKey.toString('base64'),
      version: VERSION,
      madeAt: new Date(),
    });
    const count = Object.values(rows).reduce((sum, each) => sum + each, 0);
    const { size } = await stat(path);
    process.stdout.write(
      `Backed up ${count} rows of ${Object.keys(rows).length} tables to ${path} (${size} bytes, checksum ${sha256}).\n` +
        'It holds everybody’s data and the seal key: keep it where nobody else reads it.\n',
    );
  } finally {
    await database.stop();
  }
}

try {
  await backUp(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
