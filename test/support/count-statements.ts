import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Pool, PoolClient } from 'pg';
import { DataSource } from 'typeorm';

type Query = (...given: unknown[]) => unknown;

/** Every statement that the app sends while the work runs, whoever sends it: a message to the database is one. */
export async function statementsOf(
  app: NestFastifyApplication,
  work: () => Promise<unknown>,
): Promise<string[]> {
  const { master: pool } = app.get(DataSource).driver as unknown as { master: Pool };
  const sent: string[] = [];
  const watched = new Map<PoolClient, Query>();
  const watch = (client: PoolClient) => {
    if (watched.has(client)) return;
    const query = client.query.bind(client) as Query;
    watched.set(client, query);
    client.query = ((...given: unknown[]) => {
      const [text] = given as [string | { text: string }];
      sent.push(typeof text === 'string' ? text : text.text);
      return query(...given);
    }) as never;
  };
  pool.on('acquire', watch);
  try {
    await work();
  } finally {
    pool.off('acquire', watch);
    for (const [client, query] of watched) client.query = query as never;
  }
  return sent;
}
