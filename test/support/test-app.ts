import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import supertest from 'supertest';

import { FirmService } from '#app/access/firm.service.js';
import { createApp } from '#app/create-app.js';
import { FirmTransaction } from '#app/database/firm-transaction.js';

import { cloneDatabase } from './clone-database.js';

export const FIRM_ID = '01900000-0000-7000-8000-0000000000f1';

export interface TestApp {
  app: NestFastifyApplication;
  http: ReturnType<typeof supertest>;
  /** What the app takes for now; move it with `tick`. */
  clock: TestClock;
  appUrl: string;
  close(): Promise<void>;
}

/** A clock that stands still until it is told to move. */
export class TestClock {
  private at = new Date('2026-03-02T08:00:00Z');

  now(): Date {
    return new Date(this.at);
  }

  tick(minutes: number): void {
    this.at = new Date(this.at.getTime() + minutes * 60_000);
  }
}

/** The whole app on a database of its own, with a fixed clock and one firm. Call in `beforeAll`. */
export async function buildTestApp(): Promise<TestApp> {
  const database = await cloneDatabase();
  const clock = new TestClock();
  const app = await createApp({ appUrl: database.appUrl, firmId: FIRM_ID, clock });
  await app
    .get(FirmTransaction)
    .run(FIRM_ID, 'write', () => app.get(FirmService).ensure('Test firm'));
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  const close = async () => {
    await app.close();
    await database.drop();
  };
  return { app, http: supertest(app.getHttpServer()), clock, appUrl: database.appUrl, close };
}
