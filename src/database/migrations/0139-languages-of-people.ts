import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Whoever signs in is shown pages in the language that they chose, on whichever machine. */
export class LanguagesOfPeople1764000000139 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE accounts ADD COLUMN language text');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE accounts DROP COLUMN language');
  }
}
