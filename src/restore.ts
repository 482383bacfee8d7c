// npm run restore FILE
// Puts a backup into the empty installation that the environment names: its built-in server, or DATABASE_URL.
import { checkBackup, restoreBackup } from './backup/restore-backup.js';
import { readConfig } from './config.js';
import { keepSealKey } from './seal-key.js';
import { openDatabase } from './open-database.js';

async function restore([path, ...rest]: string[]): Promise<void> {
  if (!path || rest.length > 0) throw new Error('Usage: npm run restore FILE');
  const config = readConfig(process.env);
  const header = await checkBackup(path);
  await keepSealKey(config.sealKey, config.dataDirectory, header.sealKey);
  const database = await openDatabase(config, () => undefined);
  try {
    const count = await restoreBackup(path, header, database);
    process.stdout.write(
      `Restored ${count} rows as they were at ${header.madeAt} (Lastheard ${header.version}).\n`,
    );
  } finally {
    await database.stop();
  }
}

try {
  await restore(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
