import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** When people work, how ways are reckoned, what is wanted of a job, and the plans of days. */
export class Dispatch1764000000110 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE working_times (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        hours jsonb NOT NULL,
        days_off jsonb NOT NULL,
        skills jsonb NOT NULL,
        start_latitude double precision,
        start_longitude double precision,
        ends_at_start boolean NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, id) REFERENCES people (firm_id, id)
      );
      CREATE TABLE planning_rules (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        detour_factor double precision NOT NULL,
        km_per_hour double precision NOT NULL,
        minutes_each_way integer NOT NULL,
        upkeep_minutes integer NOT NULL,
        call_out_minutes integer NOT NULL,
        moved_minutes integer NOT NULL,
        roads jsonb NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id)
      );
      CREATE TABLE job_wishes (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        pinned_to uuid,
        not_by jsonb NOT NULL,
        minutes integer,
        skills jsonb NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id, id)
      );
      CREATE TABLE day_plans (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        day date NOT NULL,
        plan jsonb NOT NULL,
        made_at timestamptz NOT NULL,
        accepted_at timestamptz,
        version integer NOT NULL,
        PRIMARY KEY (firm_id, day)
      )`);
    await keepFirmsApart(runner, ['working_times', 'planning_rules', 'job_wishes', 'day_plans']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE day_plans, job_wishes, planning_rules, working_times');
  }
}
