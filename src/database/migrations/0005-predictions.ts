import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

export class Predictions1764000000005 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE predictions (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        ticket_id uuid NOT NULL,
        occasion text NOT NULL,
        made_at timestamptz NOT NULL,
        places jsonb NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id)
      );
      CREATE INDEX ON predictions (firm_id, ticket_id);
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON predictions
        FOR EACH ROW EXECUTE FUNCTION refuse_change()`);
    await keepFirmsApart(runner, ['predictions']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE predictions');
  }
}
