import type { NestFastifyApplication } from '@nestjs/platform-fastify';

import { BackgroundService } from '#app/shared/background.service.js';
import { PoolReader } from '#app/observability/pool-reader.js';

/** Longer than any end of a transaction takes on a machine that is busy. */
const PATIENCE_MS = 10_000;

/** When all is answered nobody holds a connection; who still does has lost it for good. */
export async function expectAllGivenBack(app: NestFastifyApplication): Promise<void> {
  await app.get(BackgroundService).settle();
  const pool = app.get(PoolReader);
  const giveUpAt = Date.now() + PATIENCE_MS;
  while (isHeld(pool.read())) {
    if (Date.now() > giveUpAt) {
      throw new Error(`Connections were not given back: ${JSON.stringify(pool.read())}`);
    }
    await new Promise(setImmediate);
  }
}

function isHeld({ total, idle, waiting }: ReturnType<PoolReader['read']>): boolean {
  return idle < total || waiting > 0;
}
