import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What the electrical model needs of a site's supply, beside its volts. */
export class SupplyFigures1764000000032 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE as_built_versions
        ADD COLUMN supply_ohms double precision,
        ADD COLUMN station_amps double precision,
        ADD COLUMN core_ohms_per_km double precision`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE as_built_versions
        DROP COLUMN supply_ohms, DROP COLUMN station_amps, DROP COLUMN core_ohms_per_km`);
  }
}
