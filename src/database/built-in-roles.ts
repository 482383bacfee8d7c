import { Client, escapeIdentifier, escapeLiteral } from 'pg';

/** Owns the database and runs the migrations. Row-level security that is forced binds it too. */
export const OWNER_ROLE = 'lastheard_owner';

/** What the service itself works as: reads and writes rows, changes no structure. */
export const APP_ROLE = 'lastheard_app';

export interface RolePasswords {
  owner: string;
  app: string;
}

const PLAIN = 'login nosuperuser nocreatedb nocreaterole noreplication nobypassrls';
const SETUP_LOCK = "hashtext('lastheard set-up')";

/** Makes the two roles, or sets those that exist right. Safe to repeat; `superuser` is a connected client. */
export async function ensureRoles(superuser: Client, passwords: RolePasswords): Promise<void> {
  await withSetupLock(superuser, async () => {
    for (const [role, password] of [
      [OWNER_ROLE, passwords.owner],
      [APP_ROLE, passwords.app],
    ] as const) {
      const { rowCount } = await superuser.query('select from pg_roles where rolname = $1', [role]);
      const verb = rowCount === 0 ? 'create' : 'alter';
      await superuser.query(`${verb} role ${role} ${PLAIN} password ${escapeLiteral(password)}`);
    }
  });
}

/**
 * Makes a database that the owner role owns and the app role may use, unless it exists. Tables that the
 * owner makes in it are readable and writable to the app; a migration may take some of that back.
 * `options` is SQL for `create database`. Safe to repeat; `superuserUrl` names any database of the server.
 */
export async function ensureDatabase(
  superuserUrl: string,
  name: string,
  options = '',
): Promise<void> {
  await withClient(superuserUrl, (client) =>
    withSetupLock(client, async () => {
      const { rowCount } = await client.query('select from pg_database where datname = $1', [name]);
      if (rowCount === 0) await createDatabase(client, name, options);
    }),
  );
  await withClient(databaseUrl(superuserUrl, { database: name }), (client) =>
    withSetupLock(client, () => grantWithin(client)),
  );
}

/** `create database` with the owner and who may connect, which a template does not hand on. */
export async function createDatabase(
  superuser: Client,
  name: string,
  options: string,
): Promise<void> {
  const database = escapeIdentifier(name);
  await superuser.query(`create database ${database} owner ${OWNER_ROLE} ${options}`);
  await superuser.query(`revoke all on database ${database} from public`);
  await superuser.query(`grant connect on database ${database} to ${APP_ROLE}`);
}

async function grantWithin(superuser: Client): Promise<void> {
  const byDefault = `alter default privileges for role ${OWNER_ROLE} grant`;
  await superuser.query(`
    grant usage on schema public to ${APP_ROLE};
    ${byDefault} usage on schemas to ${APP_ROLE};
    ${byDefault} select, insert, update, delete on tables to ${APP_ROLE};
    ${byDefault} usage, select on sequences to ${APP_ROLE};`);
}

/** The url of another database or another role on the same server. */
export function databaseUrl(
  url: string,
  change: { database?: string; user?: string; password?: string },
): string {
  const changed = new URL(url);
  if (change.database !== undefined) changed.pathname = `/${change.database}`;
  if (change.user !== undefined) changed.username = change.user;
  if (change.password !== undefined) changed.password = change.password;
  return changed.href;
}

/** Connects, works, and closes the connection whatever happens. */
export async function withClient<Result>(
  url: string,
  work: (client: Client) => Promise<Result>,
): Promise<Result> {
  const client = new Client({ connectionString: url });
  // A lost connection also fails the query at hand, which is where it is dealt with.
  client.on('error', () => undefined);
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

async function withSetupLock(client: Client, work: () => Promise<void>): Promise<void> {
  await client.query(`select pg_advisory_lock(${SETUP_LOCK})`);
  try {
    await work();
  } finally {
    await client.query(`select pg_advisory_unlock(${SETUP_LOCK})`);
  }
}
