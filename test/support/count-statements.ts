import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Pool, PoolClient } from 'pg';
import { DataSource } from 'typeorm';

type Query = (...given: unknown[]) => unknown;

/** Twice a minute by the real clock, whatever is asked: old limits, and the queues' own upkeep (pg-boss). */
const TIDYING =
  /^\s*(DELETE FROM guard\.limits|UPDATE jobs\.version|BEGIN;\s+SET LOCAL lock_timeout)/;

export interface SentStatement {
  text: string;
  values: unknown[];
}

/** Every statement that the app sends while the work runs, whoever sends it: a message to the database is one. */
export async function statementsOf(
  app: NestFastifyApplication,
  work: () => Promise<unknown>,
): Promise<string[]> {
  return (await sentStatements(app, work)).map(({ text }) => text);
}

/** The same with their parameters. */
export async function sentStatements(
  app: NestFastifyApplication,
  work: () => Promise<unknown>,
): Promise<SentStatement[]> {
  const { master: pool } = app.get(DataSource).driver as unknown as { master: Pool };
  const sent: SentStatement[] = [];
  const watched = new Map<PoolClient, Query>();
  const watch = (client: PoolClient) => {
    if (watched.has(client)) return;
    const query = client.query.bind(client) as Query;
    watched.set(client, query);
    client.query = ((...given: unknown[]) => {
      const [first, values] = given as [string | SentStatement, unknown];
      const statement =
        typeof first === 'string'
          ? { text: first, values: Array.isArray(values) ? values : [] }
          : { text: first.text, values: first.values };
      if (!TIDYING.test(statement.text)) sent.push(statement);
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
