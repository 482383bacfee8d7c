import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What is told, of which table; the id of a log entry is its ticket's, and a location has its ticket's own. */
const TOLD = [
  { table: 'tickets', kind: 'ticket', id: 'id' },
  { table: 'ticket_entries', kind: 'ticket', id: 'ticket_id' },
  { table: 'ticket_locations', kind: 'location', id: 'id' },
  { table: 'visits', kind: 'visit', id: 'id' },
  { table: 'sites', kind: 'site', id: 'id' },
] as const;

/**
 * Every change of what pages show is told to every process, after its commit and once for a transaction.
 */
export class TellChanges1764000000100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE FUNCTION tell_change() RETURNS trigger LANGUAGE plpgsql AS $$
      BEGIN
        PERFORM pg_notify('lastheard_changes', json_build_object(
          'firmId', NEW.firm_id, 'kind', TG_ARGV[0], 'id', to_jsonb(NEW) ->> TG_ARGV[1])::text);
        RETURN NULL;
      END $$`);
    for (const { table, kind, id } of TOLD) {
      await runner.query(
        `CREATE TRIGGER ${table}_tell AFTER INSERT OR UPDATE ON ${table}
         FOR EACH ROW EXECUTE FUNCTION tell_change('${kind}', '${id}')`,
      );
    }
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const { table } of TOLD) await runner.query(`DROP TRIGGER ${table}_tell ON ${table}`);
    await runner.query('DROP FUNCTION tell_change()');
  }
}
