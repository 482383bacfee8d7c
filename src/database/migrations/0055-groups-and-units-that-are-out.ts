import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What the record says of a station beyond where it hangs: its groups, whether it is out, what it lacks; and of a span,
 * whether its length was measured. With defaults: a process of the version before writes rows without them.
 */
export class GroupsAndUnitsThatAreOut1764000000055 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE as_built_nodes
        ADD COLUMN is_length_guessed boolean NOT NULL DEFAULT false,
        ADD COLUMN groups text[] NOT NULL DEFAULT '{}',
        ADD COLUMN is_out boolean NOT NULL DEFAULT false,
        ADD COLUMN lacks text[] NOT NULL DEFAULT '{}'`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE as_built_nodes
        DROP COLUMN is_length_guessed, DROP COLUMN groups, DROP COLUMN is_out, DROP COLUMN lacks`);
  }
}
