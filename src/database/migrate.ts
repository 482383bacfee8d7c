import { Client } from 'pg';
import { installJobs } from '../jobs/install-jobs.js';
import { createMigrationSource } from './data-source.js';
import { grantToApp } from './grant-to-app.js';

/** Any number, as long as every process of this app asks for the same one. */
const MIGRATION_LOCK = 7_303_014;

/**
 * Brings the schema and the job queues up to date as their owner, then grants the app's role what it may do. Several
 * processes may start at once: the advisory lock lets one migrate and the others find it done.
 */
export async function migrate(ownerUrl: string, appUrl: string): Promise<void> {
  const lock = new Client({ connectionString: ownerUrl });
  await lock.connect();
  try {
    await lock.query('SELECT pg_advisory_lock($1)', [MIGRATION_LOCK]);
    const dataSource = await createMigrationSource(ownerUrl).initialize();
    try {
      await dataSource.runMigrations({ transaction: 'each' });
    } finally {
      await dataSource.destroy();
    }
    await installJobs(ownerUrl);
    await grantToApp(lock, roleOf(appUrl));
  } finally {
    await lock.end();
  }
}

function roleOf(url: string): string {
  return decodeURIComponent(new URL(url).username);
}
