import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A technician on call may take any ticket of the firm, and so reaches all of its sites. */
export class TechniciansReachAll1764000000039 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      reach(`
        IF of_role = 'client' THEN
          RETURN array(SELECT id FROM sites WHERE client_id = of_client)::text;
        END IF;`),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      reach(`
        IF of_role = 'technician' THEN
          RETURN array(SELECT DISTINCT site_id FROM visits
            WHERE technician_id = of_person AND state <> 'called-off')::text;
        ELSIF of_role = 'client' THEN
          RETURN array(SELECT id FROM sites WHERE client_id = of_client)::text;
        END IF;`),
    );
  }
}

/** What a person reaches, as text for `app.site_ids`; empty for whoever reaches all. */
function reach(rules: string): string {
  return `
    CREATE OR REPLACE FUNCTION reach_of(of_role text, of_person uuid, of_client uuid) RETURNS text
    LANGUAGE plpgsql STABLE AS $$
    BEGIN ${rules}
      RETURN '';
    END $$`;
}
