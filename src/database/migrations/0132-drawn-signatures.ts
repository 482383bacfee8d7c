import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Whoever signs may also draw their signature; it goes where their name goes (migration 0015). */
export class DrawnSignatures1764000000132 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE signatures ADD COLUMN drawn text');
    await runner.query(letGo("ARRAY['drawn']"));
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(letGo('ARRAY[]::text[]'));
    await runner.query('ALTER TABLE signatures DROP COLUMN drawn');
  }
}

/** Names give way to "Former person 1a2b3c4d", and what was drawn along with a name to nothing. */
function letGo(drawings: string): string {
  return `
    CREATE OR REPLACE FUNCTION is_anonymised(before jsonb, after jsonb) RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
      SELECT before <> after AND before - names - drawings = after - names - drawings
        AND NOT EXISTS (
          SELECT FROM unnest(names) AS name
          WHERE after ->> name IS DISTINCT FROM before ->> name
            AND (after ->> name) !~ '^Former person [0-9a-f]{8}$')
        AND NOT EXISTS (
          SELECT FROM unnest(drawings) AS drawing
          WHERE after ->> drawing IS DISTINCT FROM before ->> drawing
            AND (after ->> drawing IS NOT NULL OR before - drawings = after - drawings))
      FROM (VALUES (ARRAY['said_by', 'moved_by', 'taken_by', 'tested_by', 'name'], ${drawings}))
        AS columns_of (names, drawings) $$`;
}
