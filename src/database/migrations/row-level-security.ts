import type { QueryRunner } from 'typeorm';

/** Lets a firm's transaction see and write the firm's own rows of a table, and nobody else's. */
export async function keepFirmsApart(runner: QueryRunner, tables: string[]): Promise<void> {
  for (const table of tables) {
    await runner.query(`
      ALTER TABLE ${table} ENABLE ROW LEVEL SECURITY;
      ALTER TABLE ${table} FORCE ROW LEVEL SECURITY;
      CREATE POLICY own_firm ON ${table}
        USING (firm_id = current_setting('app.firm_id')::uuid)
        WITH CHECK (firm_id = current_setting('app.firm_id')::uuid)`);
  }
}
