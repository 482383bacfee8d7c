import type { MigrationInterface, QueryRunner } from 'typeorm';

/** With each table the columns that may change. */
const MOVED = {
  observations: '{ticket_id,withdrawal_id,period}',
  readings: '{ticket_id,withdrawal_id,visit_withdrawal_id,period}',
  looks: '{ticket_id,withdrawal_id,visit_withdrawal_id,period}',
};

/**
 * A mending that is taken back stays in the log, as an entry of another kind: whatever reads mendings reads it no more. What was
 * said after it belongs to the period before it then, so that periods go down, and only down. Runs after 0146, by its timestamp.
 */
export class WithdrawnMendings1764000001600 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TRIGGER only_grows ON ticket_entries;
      CREATE TRIGGER only_grows BEFORE DELETE ON ticket_entries
        FOR EACH ROW EXECUTE FUNCTION refuse_change();
      CREATE TRIGGER only_withdrawn BEFORE UPDATE ON ticket_entries
        FOR EACH ROW WHEN (OLD.kind <> 'mending' OR NEW.kind <> 'withdrawn-mending'
          OR to_jsonb(OLD) - 'kind' IS DISTINCT FROM to_jsonb(NEW) - 'kind')
        EXECUTE FUNCTION refuse_change()`);
    for (const [table, free] of Object.entries(MOVED))
      await runner.query(movesOnly(table, free, 'OR NEW.period > OLD.period'));
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TRIGGER only_withdrawn ON ticket_entries;
      DROP TRIGGER only_grows ON ticket_entries;
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON ticket_entries
        FOR EACH ROW EXECUTE FUNCTION refuse_change()`);
    for (const [table, free] of Object.entries(MOVED))
      await runner.query(movesOnly(table, free.replace(',period', '')));
  }
}

/** A row moves between tickets and is withdrawn once. */
function movesOnly(table: string, free: string, also = ''): string {
  return `
    DROP TRIGGER only_moves ON ${table};
    CREATE TRIGGER only_moves BEFORE UPDATE ON ${table}
      FOR EACH ROW WHEN (
        to_jsonb(OLD) - '${free}'::text[] IS DISTINCT FROM to_jsonb(NEW) - '${free}'::text[]
        OR OLD.withdrawal_id IS NOT NULL AND NEW.withdrawal_id IS DISTINCT FROM OLD.withdrawal_id ${also})
      EXECUTE FUNCTION refuse_change()`;
}
