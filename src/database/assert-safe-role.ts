import { withClient } from './built-in-roles.js';

/** Row-level security keeps firms apart only for a role that cannot step around it. */
export async function assertSafeRole(appUrl: string): Promise<void> {
  const role = await withClient(appUrl, async (client) => {
    const { rows } = await client.query<{ rolname: string; unsafe: boolean }>(
      `SELECT rolname, rolsuper OR rolbypassrls AS unsafe FROM pg_roles WHERE rolname = current_user`,
    );
    return rows[0];
  });
  if (role?.unsafe !== false) {
    throw new Error(
      `Lastheard does not run as the database role "${role?.rolname ?? '?'}": it is a superuser or may bypass ` +
        `row-level security. Name an ordinary role in DATABASE_URL; MIGRATION_DATABASE_URL may name the owner.`,
    );
  }
}
