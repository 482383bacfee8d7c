import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * A person has one link of a kind at most, so that a reset leaves an invitation alone; what brought an
 * id of its own is its sender's. Both columns may be left out, as a process of the version before does.
 */
export class LinksByKind1764000000038 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE mailed_links ADD COLUMN kind text NOT NULL DEFAULT 'reset';
      ALTER TABLE mailed_links NO FORCE ROW LEVEL SECURITY;
      UPDATE mailed_links SET kind = 'invitation' WHERE ends_at > now() + interval '1 hour';
      DELETE FROM mailed_links older USING mailed_links newer
        WHERE older.firm_id = newer.firm_id AND older.person_id = newer.person_id
          AND older.kind = newer.kind AND older.id < newer.id;
      ALTER TABLE mailed_links FORCE ROW LEVEL SECURITY;
      DROP INDEX mailed_links_firm_id_person_id_idx;
      ALTER TABLE mailed_links ADD UNIQUE (firm_id, person_id, kind);
      ALTER TABLE received_requests ADD COLUMN sender text`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE received_requests DROP COLUMN sender;
      ALTER TABLE mailed_links DROP COLUMN kind;
      CREATE INDEX ON mailed_links (firm_id, person_id)`);
  }
}
