import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * How often something was asked for in a window, as rate-limiter-flexible keeps it; its statements
 * go by the order of the columns. `guard.counts` stays for processes of the version before.
 */
export class ExactLimits1764000000037 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE UNLOGGED TABLE guard.limits (
        key text NOT NULL PRIMARY KEY,
        points integer NOT NULL DEFAULT 0,
        expire bigint
      );
      CREATE INDEX ON guard.limits (expire)`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE guard.limits');
  }
}
