import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Tables by what says of a row which site it is of; `IN` goes through the other table's own policy. */
const SITE_OF = {
  sites: 'id = ANY (SELECT reached_sites())',
  clients: 'id IN (SELECT client_id FROM sites)',
  as_built_versions: 'site_id = ANY (SELECT reached_sites())',
  as_built_trunks: 'site_id = ANY (SELECT reached_sites())',
  as_built_nodes: 'site_id = ANY (SELECT reached_sites())',
  tickets: 'site_id = ANY (SELECT reached_sites())',
  ticket_entries: 'ticket_id IN (SELECT id FROM tickets)',
  observations: 'ticket_id IN (SELECT id FROM tickets)',
  predictions: 'ticket_id IN (SELECT id FROM tickets)',
  visits: 'site_id = ANY (SELECT reached_sites())',
  visit_tickets: 'visit_id IN (SELECT id FROM visits)',
  visit_moves: 'visit_id IN (SELECT id FROM visits)',
  visit_readings: 'visit_id IN (SELECT id FROM visits)',
};

/**
 * Who may not see all of a firm sees its sites by `app.site_ids`, which entering sets: a technician
 * those of own visits, a client's people their own. Unset or empty is everything of the firm.
 */
export class Reach1764000000011 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE FUNCTION reached_sites() RETURNS SETOF uuid LANGUAGE sql STABLE AS
        $$ SELECT unnest(current_setting('app.site_ids', true)::uuid[]) $$;
      CREATE FUNCTION reaches_all() RETURNS boolean LANGUAGE sql STABLE AS
        $$ SELECT coalesce(current_setting('app.site_ids', true), '') = '' $$`);
    for (const [table, siteOf] of Object.entries(SITE_OF)) {
      await runner.query(`
        CREATE POLICY reach ON ${table} AS RESTRICTIVE
          USING ((SELECT reaches_all()) OR ${siteOf})`);
    }
    await runner.query(ENTER_WITH_REACH);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of Object.keys(SITE_OF)) await runner.query(`DROP POLICY reach ON ${table}`);
    await runner.query(`
      DROP FUNCTION reach_of(text, uuid, uuid);
      DROP FUNCTION reached_sites();
      DROP FUNCTION reaches_all()`);
  }
}

/** What a person reaches, as text for `app.site_ids`; empty for whoever reaches all. */
const ENTER_WITH_REACH = `
  CREATE FUNCTION reach_of(of_role text, of_person uuid, of_client uuid) RETURNS text
  LANGUAGE plpgsql STABLE AS $$
  BEGIN
    IF of_role = 'technician' THEN
      RETURN array(SELECT DISTINCT site_id FROM visits
        WHERE technician_id = of_person AND state <> 'called-off')::text;
    ELSIF of_role = 'client' THEN
      RETURN array(SELECT id FROM sites WHERE client_id = of_client)::text;
    ELSE
      RETURN '';
    END IF;
  END $$`;
