import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Entries in one statement. */
const AT_ONCE = 5000;

/**
 * The targets of the audit's entries that were there before migration 0061: in parts, each kept by itself, while others
 * write; run again after it was cut off, it goes on with what is missing.
 */
export class TargetsOfEarlierEntries1764000000062 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    for (const firmId of await firmIds(runner)) {
      let last: { happened_at: string; id: string } | undefined;
      do last = await keepNext(runner, firmId, last);
      while (last !== undefined);
    }
  }

  /** They go with their table. */
  down(): Promise<void> {
    return Promise.resolve();
  }
}

/** Row-level security binds the owner too: for the list of firms alone it is lifted, for nobody else to see. */
async function firmIds(runner: QueryRunner): Promise<string[]> {
  await runner.startTransaction();
  try {
    await runner.query('ALTER TABLE firms NO FORCE ROW LEVEL SECURITY');
    const firms = (await runner.query('SELECT firm_id FROM firms')) as { firm_id: string }[];
    return firms.map(({ firm_id }) => firm_id);
  } finally {
    await runner.rollbackTransaction();
  }
}

async function keepNext(
  runner: QueryRunner,
  firmId: string,
  after: { happened_at: string; id: string } | undefined,
): Promise<{ happened_at: string; id: string } | undefined> {
  await runner.startTransaction();
  try {
    await runner.query(`SELECT set_config('app.firm_id', $1, true)`, [firmId]);
    const rows = (await runner.query(
      `WITH part AS (
         SELECT happened_at, id, target FROM record_entries
         WHERE $1::timestamptz IS NULL OR (happened_at, id) > ($1, $2::uuid)
         ORDER BY happened_at, id LIMIT ${AT_ONCE}),
       kept AS (
         INSERT INTO record_targets (target, happened_at, entry_id)
         SELECT DISTINCT value, happened_at, id FROM part, jsonb_each_text(target)
         ON CONFLICT DO NOTHING)
       SELECT happened_at::text, id FROM part ORDER BY part.happened_at DESC, id DESC LIMIT 1`,
      [after?.happened_at ?? null, after?.id ?? null],
    )) as { happened_at: string; id: string }[];
    await runner.commitTransaction();
    return rows[0];
  } catch (error) {
    await runner.rollbackTransaction();
    throw error;
  }
}
