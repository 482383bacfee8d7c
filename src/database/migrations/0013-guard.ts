import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Counts that all processes share, before it is known whose request it is: no firm's rows, so they
 * have a schema of their own. Unlogged: after a crash counting begins anew.
 */
export class Guard1764000000013 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE SCHEMA guard;
      CREATE UNLOGGED TABLE guard.counts (
        key text NOT NULL,
        window_start timestamptz NOT NULL,
        count integer NOT NULL,
        PRIMARY KEY (key, window_start)
      );
      CREATE INDEX ON guard.counts (window_start);
      CREATE UNLOGGED TABLE guard.failed_sign_ins (
        key text NOT NULL PRIMARY KEY,
        count integer NOT NULL,
        last_at timestamptz NOT NULL
      )`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP SCHEMA guard CASCADE');
  }
}
