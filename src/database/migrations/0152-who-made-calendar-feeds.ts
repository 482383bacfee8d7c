import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Who made a calendar link, and when a program last read by it; of those that were made before, nobody knows. */
export class WhoMadeCalendarFeeds1764000000152 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    // A foreign key is checked against what is there, by a query that the policies would refuse.
    await runner.query(`
      ALTER TABLE calendar_feeds NO FORCE ROW LEVEL SECURITY;
      ALTER TABLE people NO FORCE ROW LEVEL SECURITY;
      ALTER TABLE calendar_feeds ADD COLUMN made_by_id uuid, ADD COLUMN last_read_at timestamptz,
        ADD FOREIGN KEY (firm_id, made_by_id) REFERENCES people (firm_id, id);
      ALTER TABLE calendar_feeds FORCE ROW LEVEL SECURITY;
      ALTER TABLE people FORCE ROW LEVEL SECURITY`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      'ALTER TABLE calendar_feeds DROP COLUMN made_by_id, DROP COLUMN last_read_at',
    );
  }
}
