import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

const WITHDRAWN = ['readings', 'looks', 'proven_points'];
const FREE = '{ticket_id,withdrawal_id,visit_withdrawal_id}';

/**
 * What was entered on a visit is withdrawn in the visit's own log, whether it is about a ticket or not: rows of it name the
 * entry, which is set once.
 */
export class WithdrawalsOnVisits1764000000129 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    // A new foreign key looks at the rows there are, of whatever firm.
    const looked = [...WITHDRAWN, 'visits'];
    for (const table of looked)
      await runner.query(`ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`);
    await runner.query(`
      CREATE TABLE visit_withdrawals (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        visit_id uuid NOT NULL,
        what text NOT NULL,
        withdrawn_id uuid NOT NULL,
        said_by text NOT NULL,
        said_by_kind text NOT NULL,
        happened_at timestamptz NOT NULL,
        recorded_at timestamptz NOT NULL,
        reason text NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id)
      );
      CREATE INDEX ON visit_withdrawals (firm_id, visit_id, recorded_at, id);
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON visit_withdrawals
        FOR EACH ROW EXECUTE FUNCTION refuse_change();
      DROP TRIGGER only_grows ON proven_points;
      CREATE TRIGGER only_grows BEFORE DELETE ON proven_points
        FOR EACH ROW EXECUTE FUNCTION refuse_change();
      CREATE TRIGGER only_withdrawn BEFORE UPDATE ON proven_points
        FOR EACH ROW WHEN (
          to_jsonb(OLD) - 'visit_withdrawal_id' IS DISTINCT FROM to_jsonb(NEW) - 'visit_withdrawal_id')
        EXECUTE FUNCTION refuse_change()`);
    for (const table of WITHDRAWN)
      await runner.query(`
        ALTER TABLE ${table} ADD COLUMN visit_withdrawal_id uuid;
        ALTER TABLE ${table}
          ADD FOREIGN KEY (firm_id, visit_withdrawal_id) REFERENCES visit_withdrawals (firm_id, id);
        CREATE TRIGGER withdrawn_once BEFORE UPDATE ON ${table}
          FOR EACH ROW WHEN (OLD.visit_withdrawal_id IS NOT NULL
            AND NEW.visit_withdrawal_id IS DISTINCT FROM OLD.visit_withdrawal_id)
          EXECUTE FUNCTION refuse_change()`);
    for (const table of ['readings', 'looks']) await runner.query(movesOnly(table, FREE));
    await keepFirmsApart(runner, ['visit_withdrawals']);
    await runner.query(`
      CREATE POLICY reach ON visit_withdrawals AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR visit_id IN (SELECT id FROM visits))`);
    for (const table of looked) await runner.query(`ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['readings', 'looks'])
      await runner.query(movesOnly(table, '{ticket_id,withdrawal_id}'));
    await runner.query(`
      DROP TRIGGER only_withdrawn ON proven_points;
      DROP TRIGGER only_grows ON proven_points;
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON proven_points
        FOR EACH ROW EXECUTE FUNCTION refuse_change()`);
    for (const table of WITHDRAWN)
      await runner.query(`
        DROP TRIGGER withdrawn_once ON ${table};
        ALTER TABLE ${table} DROP COLUMN visit_withdrawal_id`);
    await runner.query('DROP TABLE visit_withdrawals');
  }
}

/** A row only moves between tickets, and is withdrawn once. */
function movesOnly(table: string, free: string): string {
  return `
    DROP TRIGGER only_moves ON ${table};
    CREATE TRIGGER only_moves BEFORE UPDATE ON ${table}
      FOR EACH ROW WHEN (
        to_jsonb(OLD) - '${free}'::text[] IS DISTINCT FROM to_jsonb(NEW) - '${free}'::text[]
        OR OLD.withdrawal_id IS NOT NULL AND NEW.withdrawal_id IS DISTINCT FROM OLD.withdrawal_id)
      EXECUTE FUNCTION refuse_change()`;
}
