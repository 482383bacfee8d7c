import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * The scopes of who did what are called `audit:…` now. Tokens get the new names beside the old ones,
 * which an older process still goes by.
 */
export class AuditScope1764000000036 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE api_tokens NO FORCE ROW LEVEL SECURITY;
      UPDATE api_tokens SET scopes = scopes || 'audit:read'::text WHERE 'record:read' = ANY (scopes);
      UPDATE api_tokens SET scopes = scopes || 'audit:write'::text WHERE 'record:write' = ANY (scopes);
      ALTER TABLE api_tokens FORCE ROW LEVEL SECURITY`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE api_tokens NO FORCE ROW LEVEL SECURITY;
      UPDATE api_tokens SET scopes = array_remove(array_remove(scopes, 'audit:read'), 'audit:write');
      ALTER TABLE api_tokens FORCE ROW LEVEL SECURITY`);
  }
}
