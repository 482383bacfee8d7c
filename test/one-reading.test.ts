import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { DataSource } from 'typeorm';

import { withClient } from '#app/database/built-in-roles.js';
import { createDataSource } from '#app/database/data-source.js';
import { migrate } from '#app/database/migrate.js';

import { type ClonedDatabase, cloneDatabase } from './support/clone-database.js';

const id = (end: string) => `01900000-0000-7000-8000-0000000000${end}`;
const [FIRM, OTHER, CLIENT, SITE, TICKET, VISIT] = ['f1', 'f2', 'c1', '51', '71', 'b1'].map(id);
/** The client gave it to a reading on the ticket and to one on the visit. */
const SAME = id('e1');
const LATER = id('e2');
const VOLTS = { kind: 'supply-volts', trunk: 'A', node: 'A4', volts: 0.5, uncertaintyVolts: 0.1 };
const AT = '2026-03-02T08:00:00Z';

const ENTRY = (entry: string, note: string) => `
  INSERT INTO ticket_entries (id, ticket_id, kind, said_by, said_by_kind, happened_at, recorded_at, details)
    VALUES ('${entry}', '${TICKET}', 'reading', 'Ilvo Marsh', 'technician', '${AT}', '${AT}', '{"note": "${note}"}')`;
const ON_TICKET = (entry: string) => `
  INSERT INTO ticket_readings (id, ticket_id, reading, taken_by, taken_by_kind, taken_at, recorded_at, period)
    VALUES ('${entry}', '${TICKET}', '${JSON.stringify(VOLTS)}', 'Ilvo Marsh', 'technician', '${AT}', '${AT}', 0)`;
const ON_VISIT = (reading: string) => `
  INSERT INTO visit_readings (id, visit_id, kind, place, entered, value, unit, taken_at, taken_by, recorded_at)
    VALUES ('${reading}', '${VISIT}', 'other', 'Hall', '12', 12, 'lux', '${AT}', 'Ilvo Marsh', '${AT}')`;

describe('the migration to one table of readings', () => {
  let database: ClonedDatabase;
  let owner: DataSource;

  /** Runs SQL as the app in a firm's transaction. */
  async function asFirm(firm: string, sql: string): Promise<Record<string, unknown>[]> {
    return withClient(database.appUrl, async (client) => {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [firm]);
      return (await client.query(sql)).rows;
    });
  }
  const undo = async () => {
    const before = async () =>
      (await owner.query(`SELECT to_regclass('readings') IS NULL AS is_before`))[0].is_before;
    while (!(await before())) await owner.undoLastMigration();
  };
  const all = `SELECT id, ticket_id, visit_id, entry_id, kind, node, value, unit, note, taken_by_kind
    FROM readings ORDER BY ticket_id, recorded_at, id`;

  beforeAll(async () => {
    database = await cloneDatabase();
    owner = await createDataSource(database.ownerUrl, 1).initialize();
    await undo();
    await migrateGrants();
    for (const firm of [FIRM, OTHER])
      await asFirm(firm!, `INSERT INTO firms (name, created_at) VALUES ('One', '${AT}')`);
    await asFirm(
      FIRM!,
      `INSERT INTO clients (id, name, version, created_at) VALUES ('${CLIENT}', 'Board', 1, '${AT}');
       INSERT INTO sites (id, client_id, name, zone, serves_emergency_calls, version, as_built_version, created_at)
         VALUES ('${SITE}', '${CLIENT}', 'School', 'Europe/Vienna', false, 1, 1, '${AT}');
       INSERT INTO tickets (id, number, site_id, as_built_version, state, opened_by, opened_at, period, version)
         VALUES ('${TICKET}', 1, '${SITE}', 1, 'reported', 'Mara Quill', '${AT}', 0, 1);
       INSERT INTO visits (id, site_id, kind, "on", purpose, upkeep, state, version, created_at)
         VALUES ('${VISIT}', '${SITE}', 'planned', '2026-03-02', 'Upkeep', true, 'done', 1, '${AT}');
       ${ENTRY(SAME, 'at the rack')};
       ${ON_TICKET(SAME)};
       ${ON_VISIT(SAME)}`,
    );
    await migrate(database.ownerUrl, database.appUrl);
  });

  /** The tables that were made again by going back are new to the app. */
  const migrateGrants = () =>
    owner.query(`GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA public TO
      ${new URL(database.appUrl).username}`);

  afterAll(async () => {
    await owner.destroy();
    await database.drop();
  });

  it('moves every row, and gives the second of two with one id another', async () => {
    const [first, second, ...others] = await asFirm(FIRM!, all);
    expect(others).toEqual([]);
    expect(first).toMatchObject({ id: SAME, ticket_id: TICKET, visit_id: null, entry_id: SAME });
    expect(first).toMatchObject({ kind: 'supply-volts', node: 'A4', value: 0.5, unit: 'V' });
    expect(first).toMatchObject({ note: 'at the rack', taken_by_kind: 'technician' });
    expect(second).toMatchObject({ visit_id: VISIT, ticket_id: null, entry_id: null });
    expect(second).toMatchObject({ kind: 'other', value: 12, unit: 'lux', note: null });
    expect(second!['id']).not.toBe(SAME);
    expect(await asFirm(OTHER!, all)).toEqual([]);
  });

  it('lets a process that was started before it go on under the old names', async () => {
    await asFirm(FIRM!, `${ENTRY(LATER, 'later')}; ${ON_TICKET(LATER)}; ${ON_VISIT(id('e3'))}`);
    const rows = await asFirm(FIRM!, all);
    expect(rows).toHaveLength(4);
    expect(rows.find((row) => row['id'] === LATER)).toMatchObject({
      entry_id: LATER,
      kind: 'supply-volts',
      node: 'A4',
      value: 0.5,
    });
    for (const view of ['ticket_readings', 'visit_readings']) {
      expect(await asFirm(FIRM!, `SELECT id FROM ${view}`)).toHaveLength(2);
      expect(await asFirm(OTHER!, `SELECT id FROM ${view}`)).toEqual([]);
      const change = `UPDATE ${view} SET taken_at = taken_at - interval '1 day'`;
      await expect(asFirm(FIRM!, change)).rejects.toThrow(/only grows/);
      await asFirm(FIRM!, `UPDATE ${view} SET taken_by = 'Former person 1a2b3c4d'`);
    }
  });

  it('goes back with every row', async () => {
    await undo();
    await migrateGrants();
    for (const table of ['ticket_readings', 'visit_readings']) {
      expect(await asFirm(FIRM!, `SELECT taken_by FROM ${table}`)).toEqual([
        { taken_by: 'Former person 1a2b3c4d' },
        { taken_by: 'Former person 1a2b3c4d' },
      ]);
      expect(await asFirm(OTHER!, `SELECT id FROM ${table}`)).toEqual([]);
    }
    await migrate(database.ownerUrl, database.appUrl);
    expect(await asFirm(FIRM!, all)).toHaveLength(4);
  });
});
