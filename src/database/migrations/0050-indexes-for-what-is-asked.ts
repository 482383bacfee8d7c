import type { MigrationInterface, QueryRunner } from 'typeorm';

const INDEXES = [
  ['ticket_entries', ['kind', 'id']],
  ['tickets', ['closed_at']],
  ['record_entries', ['actor_id', 'happened_at', 'id']],
  ['record_entries', ['action', 'outcome', 'happened_at', 'id']],
] as const;

/**
 * What a firm asks for across its sites: entries of a kind, what was closed when, what somebody did, which sign-ins
 * failed. Built while others write (decision 0035), so outside of a transaction; one that was left half is built anew.
 */
export class IndexesForWhatIsAsked1764000000050 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    for (const [table, columns] of INDEXES) {
      const name = nameOf(table, columns);
      await runner.query(`DROP INDEX CONCURRENTLY IF EXISTS ${name}`);
      await runner.query(
        `CREATE INDEX CONCURRENTLY ${name} ON ${table} (firm_id, ${columns.join(', ')})`,
      );
    }
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const [table, columns] of INDEXES) {
      await runner.query(`DROP INDEX IF EXISTS ${nameOf(table, columns)}`);
    }
  }
}

/** As PostgreSQL itself names them, which the entities expect. */
function nameOf(table: string, columns: readonly string[]): string {
  return [table, 'firm_id', ...columns, 'idx'].join('_');
}
