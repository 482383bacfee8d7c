import { Client } from 'pg';

/**
 * A process's claim on the server, held for as long as its connection lives: when the process dies, however
 * it dies, PostgreSQL drops the claim. Whoever gives up the last claim stops the server.
 */
export interface Lease {
  /** Gives up the claim. True when no other process has one; then none can get one before `close`. */
  release(): Promise<boolean>;
  close(): Promise<void>;
  /** Resolves when the connection is gone without having been closed here: most likely the server is, too. */
  lost: Promise<void>;
}

const LEASE_LOCK = "hashtext('lastheard lease')";
const CONNECT_TIMEOUT_MS = 10_000;

/** Claims the server. Rejects when it cannot be reached, or is being stopped by who held the last claim. */
export async function takeLease(superuserUrl: string): Promise<Lease> {
  let client = await connect(superuserUrl);
  try {
    await client.query(`select pg_advisory_lock_shared(${LEASE_LOCK})`);
  } catch (error) {
    await client.end();
    throw error;
  }
  const first = client;
  let isClosed = false;
  const lost = new Promise<void>((resolve) => {
    first.once('end', () => {
      if (!isClosed) resolve();
    });
  });
  return {
    lost,
    async release() {
      try {
        await client.query(`select pg_advisory_unlock_shared(${LEASE_LOCK})`);
      } catch {
        // The connection was lost, and the claim with it; the server may be there all the same,
        // because PostgreSQL drops every connection when one of its own processes crashes.
        client = await connect(superuserUrl);
      }
      const { rows } = await client.query<{ isLast: boolean }>(
        `select pg_try_advisory_lock(${LEASE_LOCK}) as "isLast"`,
      );
      return rows[0]?.isLast === true;
    },
    close: () => {
      isClosed = true;
      return client.end();
    },
  };
}

async function connect(url: string): Promise<Client> {
  const client = new Client({
    connectionString: url,
    connectionTimeoutMillis: CONNECT_TIMEOUT_MS,
    application_name: 'lastheard lease',
  });
  // Losing it is no failure of this process: `release` finds out.
  client.on('error', () => undefined);
  await client.connect();
  return client;
}
