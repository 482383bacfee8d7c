import type { MigrationInterface, QueryRunner } from 'typeorm';

const TABLES = ['observations', 'ticket_readings'];

/**
 * What was entered in the wrong place is withdrawn: its row stays, and names the log entry that says who withdrew it, when
 * and why. That is set once; beyond it a row still only moves between tickets.
 */
export class Withdrawals1764000000035 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    // A new foreign key looks at the rows there are, of whatever firm.
    const looked = [...TABLES, 'ticket_entries'];
    for (const table of looked)
      await runner.query(`ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`);
    for (const table of TABLES) {
      await runner.query(`
        ALTER TABLE ${table} ADD COLUMN withdrawal_id uuid;
        ALTER TABLE ${table}
          ADD FOREIGN KEY (firm_id, withdrawal_id) REFERENCES ticket_entries (firm_id, id);
        DROP TRIGGER only_moves ON ${table};
        CREATE TRIGGER only_moves BEFORE UPDATE ON ${table}
          FOR EACH ROW WHEN (
            to_jsonb(OLD) - '{ticket_id,withdrawal_id}'::text[]
              IS DISTINCT FROM to_jsonb(NEW) - '{ticket_id,withdrawal_id}'::text[]
            OR OLD.withdrawal_id IS NOT NULL AND NEW.withdrawal_id IS DISTINCT FROM OLD.withdrawal_id)
          EXECUTE FUNCTION refuse_change()`);
    }
    for (const table of looked) await runner.query(`ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of TABLES) {
      await runner.query(`
        DROP TRIGGER only_moves ON ${table};
        ALTER TABLE ${table} DROP COLUMN withdrawal_id;
        CREATE TRIGGER only_moves BEFORE UPDATE ON ${table}
          FOR EACH ROW WHEN (to_jsonb(OLD) - 'ticket_id' IS DISTINCT FROM to_jsonb(NEW) - 'ticket_id')
          EXECUTE FUNCTION refuse_change()`);
    }
  }
}
