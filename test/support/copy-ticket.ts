import { Client } from 'pg';

import { FIRM_ID, type TestApp } from './test-app.js';

/** Copies an open ticket with what was said and where it was located, so many times, each opened a minute earlier. */
export async function copyTicket(
  { ownerUrl }: Pick<TestApp, 'ownerUrl'>,
  number: number,
  copies: number,
): Promise<void> {
  const database = new Client({ connectionString: ownerUrl });
  await database.connect();
  try {
    await database.query('BEGIN');
    await database.query(`SELECT set_config('app.firm_id', $1, true)`, [FIRM_ID]);
    await database.query(
      `CREATE TEMP TABLE copies ON COMMIT DROP AS
         SELECT id AS of, n, gen_random_uuid() AS id
         FROM tickets, generate_series(1, ${copies}) n WHERE number = ${number}`,
    );
    await database.query(
      `CREATE TEMP TABLE entry_copies ON COMMIT DROP AS
         SELECT one.id AS of, copies.id AS ticket_id, gen_random_uuid() AS id
         FROM ticket_entries one JOIN copies ON copies.of = one.ticket_id`,
    );
    const earlier = `one.opened_at - c.n * interval '1 minute'`;
    for (const [table, from, changes] of [
      [
        'tickets',
        'copies c ON c.of = one.id',
        `'id', c.id, 'number', 1000 + c.n, 'opened_at', ${earlier}`,
      ],
      ['ticket_locations', 'copies c ON c.of = one.id', `'id', c.id`],
      ['ticket_entries', 'entry_copies c ON c.of = one.id', `'id', c.id, 'ticket_id', c.ticket_id`],
      [
        'observations',
        'entry_copies c ON c.of = one.entry_id',
        `'id', gen_random_uuid(), 'entry_id', c.id, 'ticket_id', c.ticket_id`,
      ],
    ])
      // Once for each row: `(…).*` would do it for each column.
      await database.query(
        `INSERT INTO ${table} SELECT copied.* FROM ${table} one JOIN ${from},
           LATERAL jsonb_populate_record(NULL::${table}, to_jsonb(one) || jsonb_build_object(${changes})) AS copied`,
      );
    // What is opened next has a higher number than all of them.
    await database.query(`UPDATE firms SET last_ticket_number = 1000 + ${copies}`);
    await database.query('COMMIT');
  } finally {
    await database.end();
  }
}
