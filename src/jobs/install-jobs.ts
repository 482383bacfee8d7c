import PgBoss from 'pg-boss';
import { FAILED_JOBS, JOB_KINDS, JOB_SCHEMA } from './job-kinds.js';

/**
 * What pg-boss has none for: the next job in its order, and those with the same data. Without, each job that is begun goes through all
 * that wait.
 */
const INDEXES = [
  `CREATE INDEX IF NOT EXISTS job_in_order ON ${JOB_SCHEMA}.job (name, priority DESC, created_on, id)
   INCLUDE (start_after) WHERE state < 'active'`,
  `CREATE INDEX IF NOT EXISTS job_of_data ON ${JOB_SCHEMA}.job USING hash (data) WHERE state < 'active'`,
];

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
    for (const index of INDEXES) await boss.getDb().executeSql(index, []);
  } finally {
    await boss.stop({ graceful: false });
  }
  if (failure !== undefined) throw failure;
}
