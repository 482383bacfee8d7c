import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { DataSource } from 'typeorm';

import { withClient } from '#app/database/built-in-roles.js';
import { createDataSource } from '#app/database/data-source.js';
import { migrate } from '#app/database/migrate.js';

import { type ClonedDatabase, cloneDatabase } from './support/clone-database.js';

const id = (end: string) => `01900000-0000-7000-8000-0000000000${end}`;
const [FIRM, OTHER, CLIENT, SITE, TICKET] = ['f1', 'f2', 'c1', '51', '71'].map(id);
const at = (minute: number) => `2026-03-02T08:0${minute}:00Z`;

let entries = 0;
const entry = (kind: string, details: object) => {
  entries++;
  return `
  INSERT INTO ticket_entries (id, ticket_id, kind, said_by, said_by_kind, happened_at, recorded_at, details)
    VALUES ('${id(`e${entries}`)}', '${TICKET}', '${kind}', 'Mara Quill', 'office', '${at(entries)}', '${at(entries)}',
      '${JSON.stringify(details)}')`;
};
const answer = (question: string, given: string) => entry('answer', { question, answer: given });

describe('the migration that makes looks of answers', () => {
  let database: ClonedDatabase;
  let owner: DataSource;

  const asFirm = (firm: string, sql: string): Promise<Record<string, unknown>[]> =>
    withClient(database.appUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [firm]);
      return (await client.query(sql)).rows;
    });

  beforeAll(async () => {
    database = await cloneDatabase();
    owner = await createDataSource(database.ownerUrl, 1).initialize();
    const isThere = async () =>
      (await owner.query(`SELECT to_regclass('looks') IS NOT NULL AS there`))[0].there;
    while (await isThere()) await owner.undoLastMigration();
    for (const firm of [FIRM!, OTHER!])
      await asFirm(firm, `INSERT INTO firms (name, created_at) VALUES ('One', '${at(0)}')`);
    await asFirm(
      FIRM!,
      `INSERT INTO clients (id, name, version, created_at) VALUES ('${CLIENT}', 'Board', 1, '${at(0)}');
       INSERT INTO sites (id, client_id, name, zone, serves_emergency_calls, version, as_built_version, created_at)
         VALUES ('${SITE}', '${CLIENT}', 'School', 'Europe/Vienna', false, 1, 1, '${at(0)}');
       INSERT INTO tickets (id, number, site_id, as_built_version, state, opened_by, opened_at, period, version)
         VALUES ('${TICKET}', 1, '${SITE}', 1, 'reported', 'Mara Quill', '${at(0)}', 1, 1);
       ${answer('head-end-on', 'yes')};
       ${answer('ordinary-day', 'unknown')};
       ${answer('is-it-raining', 'yes')};
       ${entry('mending', { mending: 'lasting' })};
       ${answer('volume-up:A/A/4', 'no')}`,
    );
    await migrate(database.ownerUrl, database.appUrl);
  });

  afterAll(async () => {
    await owner.destroy();
    await database.drop();
  });

  it('takes those that say something of a part, each in its period, for its own firm', async () => {
    const said = {
      ticket_id: TICKET,
      visit_id: null,
      said_by: 'Mara Quill',
      said_by_kind: 'office',
    };
    const all = `SELECT *, id = entry_id AS is_entry FROM looks ORDER BY recorded_at`;
    const power = { place: { kind: 'head-end' }, part: 'power', seen: 'sound', period: 0 };
    const place = { kind: 'station', trunk: 'A', node: 'A/4' };
    expect(await asFirm(FIRM!, all)).toMatchObject([
      { ...said, ...power, is_entry: true, looked_at: new Date(at(1)) },
      { ...said, place, part: 'volume-down', seen: 'faulty', period: 1, is_entry: true },
    ]);
    expect(await asFirm(OTHER!, all)).toEqual([]);
    const forced = await owner.query(
      `SELECT relname FROM pg_class WHERE relname IN ('ticket_entries', 'tickets', 'visits', 'looks')
         AND relforcerowsecurity`,
    );
    expect(forced).toHaveLength(4);
  });
});
