// A process that does test jobs until it is told to stop: `node run-job-worker.js <app url>`; says when it has begun.
import { createApp } from '#app/create-app.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';
import type { JobKind } from '#app/jobs/job-kinds.js';
import { JobService } from '#app/jobs/job.service.js';
import { SystemClock } from '#app/shared/clock.js';
import { stopOnSignal } from '#app/stop-on-signal.js';

const [appUrl] = process.argv.slice(2);
const app = await createApp({
  appUrl: appUrl!,
  publicUrl: 'http://localhost',
  sealKey: Buffer.alloc(32),
  clock: new SystemClock(),
});
const transaction = app.get(FirmTransaction);
app.get(JobService).handle('test-effects' as JobKind, async ({ data, firmId, finish }) => {
  const { number, first } = data as unknown as {
    number: number;
    first: 'fails' | 'dies' | 'works';
  };
  const tries = await transaction.run(firmId, 'write', async () => {
    const manager = await transaction.manager();
    const [row] = await manager.query<{ tries: number }[]>(
      `INSERT INTO test_tries (number) VALUES ($1)
       ON CONFLICT (number) DO UPDATE SET tries = test_tries.tries + 1 RETURNING tries`,
      [number],
    );
    return row!.tries;
  });
  if (first === 'fails' && tries === 1) throw new Error('the first time');
  await finish(async () => {
    const manager = await transaction.manager();
    await manager.query('INSERT INTO test_effects (number) VALUES ($1)', [number]);
    if (first === 'dies' && tries === 1) process.kill(process.pid, 'SIGKILL');
  });
});
stopOnSignal(
  () => app.close(),
  () => undefined,
);
await app.init();
process.stdout.write('begun\n');
