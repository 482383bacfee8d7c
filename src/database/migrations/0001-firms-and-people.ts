import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

export class FirmsAndPeople1764000000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE firms (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        name text NOT NULL,
        created_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id)
      );

      CREATE TABLE people (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        name text NOT NULL,
        work text NOT NULL,
        phone text,
        version integer NOT NULL,
        created_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id) REFERENCES firms (firm_id)
      );

      CREATE TABLE received_requests (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        route text NOT NULL,
        content_hash text NOT NULL,
        answer text,
        received_at timestamptz NOT NULL DEFAULT now(),
        PRIMARY KEY (firm_id, id)
      )`);
    await keepFirmsApart(runner, ['firms', 'people', 'received_requests']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE received_requests; DROP TABLE people; DROP TABLE firms');
  }
}
