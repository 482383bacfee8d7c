import PgBoss from 'pg-boss';
import { FAILED_JOBS, JOB_KINDS, JOB_SCHEMA } from './job-kinds.js';

/**
 * Makes or updates the job queues as the owner of the database: what the app's role may not. Safe to repeat, and for
 * several processes at once.
 */
export async function installJobs(ownerUrl: string): Promise<void> {
  const boss = new PgBoss({
    connectionString: ownerUrl,
    schema: JOB_SCHEMA,
    max: 1,
    migrate: true,
    supervise: false,
    schedule: false,
  });
  let failure: Error | undefined;
  boss.on('error', (error) => (failure ??= error));
  await boss.start();
  try {
    await boss.createQueue(FAILED_JOBS);
    for (const [name, settings] of Object.entries(JOB_KINDS)) {
      const queue = { name, ...settings, deadLetter: FAILED_JOBS };
      await boss.createQueue(name, queue);
      await boss.updateQueue(name, queue);
    }
  } finally {
    await boss.stop({ graceful: false });
  }
  if (failure !== undefined) throw failure;
}
