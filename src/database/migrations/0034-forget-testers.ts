import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Who tested a function is a name like any other: it can be taken out of what was proven (migration 0015). */
export class ForgetTesters1764000000034 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(letGo(['said_by', 'moved_by', 'taken_by', 'tested_by', 'name']));
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(letGo(['said_by', 'moved_by', 'taken_by', 'name']));
  }
}

function letGo(columns: string[]): string {
  const list = columns.map((column) => `'${column}'`).join(', ');
  return `
    CREATE OR REPLACE FUNCTION is_anonymised(before jsonb, after jsonb) RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
      SELECT before <> after AND before - names = after - names AND NOT EXISTS (
        SELECT FROM unnest(names) AS name
        WHERE after ->> name IS DISTINCT FROM before ->> name
          AND (after ->> name) !~ '^Former person [0-9a-f]{8}$')
      FROM (VALUES (ARRAY[${list}])) AS columns_of (names) $$`;
}
