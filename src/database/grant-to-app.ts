import type { Client } from 'pg';
import { JOB_SCHEMA } from '../jobs/job-kinds.js';

/**
 * Grants the app's role its rights on every table of the schema. Running it after each migration
 * keeps the grants in one place; where the app is the owner itself there is nothing to grant.
 */
export async function grantToApp(owner: Client, appRole: string): Promise<void> {
  const { rows } = await owner.query<{ current: string }>('SELECT current_user AS current');
  if (rows[0]?.current === appRole) return;
  const role = owner.escapeIdentifier(appRole);
  await owner.query(`GRANT USAGE ON SCHEMA public TO ${role}`);
  await owner.query(
    `GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA public TO ${role}`,
  );
  for (const schema of ['guard', JOB_SCHEMA]) {
    await owner.query(`GRANT USAGE ON SCHEMA ${schema} TO ${role}`);
    await owner.query(
      `GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${schema} TO ${role}`,
    );
  }
  await owner.query(
    `REVOKE UPDATE, DELETE, TRUNCATE ON TABLE record_entries, record_targets FROM ${role}`,
  );
  await owner.query(`REVOKE ALL ON TABLE migrations FROM ${role}`);
}
