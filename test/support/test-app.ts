import type { FastifyAdapter, NestFastifyApplication } from '@nestjs/platform-fastify';
import supertest from 'supertest';

import type { RequestLimits } from '#app/access/access-settings.js';
import type { MailServer } from '#app/mail/mail.service.js';
import type { PersonRole } from '#app/people/roles.js';
import { JobService } from '#app/jobs/job.service.js';
import { SetUpService } from '#app/access/set-up.service.js';
import { createApp } from '#app/create-app.js';

import { expectAllGivenBack } from './given-back.js';
import { cloneDatabase } from './clone-database.js';

export const FIRM_ID = '01900000-0000-7000-8000-0000000000f1';

const STRANGERS_FIRM = '01900000-0000-7000-8000-0000000000fe';

/** Of every account that `addPerson` makes. */
export const PASSWORD = 'a heron on the weathercock';

export const SEAL_KEY = Buffer.alloc(32, 'seals');

export type Agent = ReturnType<typeof supertest.agent>;

export interface TestPerson {
  id: string;
  email: string;
  /** With all scopes. */
  token: string;
  /** Asks as this person, by a token with all scopes. */
  http: Agent;
}

export interface TestApp {
  app: NestFastifyApplication;
  /** Asks as an owner of the firm, by a token with all scopes. */
  http: Agent;
  owner: TestPerson;
  /** Asks as nobody, and keeps cookies: somebody's browser. */
  browser(): Agent;
  /** Somebody of the firm, or of another one, who can sign in with PASSWORD. */
  addPerson(
    role: PersonRole,
    of?: { firmId?: string; clientId?: string; name?: string },
  ): Promise<TestPerson>;
  addFirm(firmId: string): Promise<void>;
  /** A technician of another firm. */
  addStranger(): Promise<TestPerson>;
  /** What the app takes for now; move it with `tick`. */
  clock: TestClock;
  appUrl: string;
  ownerUrl: string;
  close(): Promise<void>;
}

/** A clock that stands still until it is told to move. */
export class TestClock {
  private at = new Date('2026-03-02T08:00:00Z');
  private millisecondsEachReading = 0;

  now(): Date {
    this.at = new Date(this.at.getTime() + this.millisecondsEachReading);
    return new Date(this.at);
  }

  /** From now on goes by so much whenever it is read, as real ones do; 0 stops it. */
  run(millisecondsEachReading: number): void {
    this.millisecondsEachReading = millisecondsEachReading;
  }

  /**
   * To the machine's own clock, by which browsers go. Never ahead of it: what a page enters would be before what it is about, such
   * as a walk test before the report.
   */
  catchUp(): void {
    this.at = new Date();
  }

  tick(minutes: number): void {
    this.at = new Date(this.at.getTime() + minutes * 60_000);
  }
}

export interface TestSettings {
  publicUrl?: string;
  adapter?: FastifyAdapter;
  limits?: Partial<RequestLimits>;
  mail?: MailServer;
  reachesPrivate?: boolean;
  /** Jobs are done by `settle` alone: nothing is worked out that the test does not ask for. */
  jobsRest?: boolean;
}

/** The clock stands still, so everything a test does is in one minute. */
const NO_LIMITS: RequestLimits = {
  openPerMinute: 1e6,
  wrongCredentialsPerMinute: 1e6,
  passPerMinute: 1e6,
  accountPerMinute: 1e6,
};

/** The whole app on a database of its own, with a fixed clock and one firm. Call in `beforeAll`. */
export async function buildTestApp({
  publicUrl = 'http://localhost',
  adapter,
  limits,
  mail,
  reachesPrivate,
  jobsRest = false,
}: TestSettings = {}): Promise<TestApp> {
  const database = await cloneDatabase();
  const clock = new TestClock();
  const settings = {
    appUrl: database.appUrl,
    publicUrl,
    sealKey: SEAL_KEY,
    limits: { ...NO_LIMITS, ...limits },
    mail,
    reachesPrivate,
    // Beside browsers and other tests it would wait longer than a page does.
    arithmeticGivesWay: false,
    clock,
  };
  const app = await createApp(settings, adapter);
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  if (jobsRest) await app.get(JobService).rest();
  const setUp = app.get(SetUpService);
  const server = app.getHttpServer();

  const addFirm = (firmId: string) => setUp.ensureFirm(firmId, 'Test firm');
  let people = 0;
  const addPerson = async (
    role: PersonRole,
    {
      firmId = FIRM_ID,
      clientId,
      name = `Some ${role}`,
    }: { firmId?: string; clientId?: string; name?: string } = {},
  ): Promise<TestPerson> => {
    const email = `${role}-${++people}@firm.example`;
    const account = { name, email, role, clientId, password: PASSWORD };
    const id = await setUp.addAccount(firmId, account);
    const token = await setUp.createToken(firmId, id, 'Test');
    return { id, email, token, http: supertest.agent(server).auth(token, { type: 'bearer' }) };
  };

  const addStranger = async () => {
    await addFirm(STRANGERS_FIRM);
    return addPerson('technician', { firmId: STRANGERS_FIRM });
  };

  await addFirm(FIRM_ID);
  const owner = await addPerson('owner');
  return {
    app,
    http: owner.http,
    owner,
    browser: () => supertest.agent(server),
    addPerson,
    addFirm,
    addStranger,
    clock,
    appUrl: database.appUrl,
    ownerUrl: database.ownerUrl,
    close: async () => {
      await expectAllGivenBack(app);
      await app.close();
      await database.drop();
    },
  };
}
