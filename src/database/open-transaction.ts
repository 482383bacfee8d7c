import type { PoolClient } from 'pg';
import type { QueryRunner } from 'typeorm';
import type { Reach } from './firm-read.js';
import { joinStatements, type SqlStatement } from './join-statements.js';

export type Mode = 'read' | 'write';

export interface OpenTransaction {
  /** Left out: of no firm. */
  firmId?: string;
  /** Where it reads, and statements may be read in transactions of their own. */
  reach?: Reach;
  mode: Mode;
  /** Another one of the same firm and reach. */
  again: (mode: Mode) => OpenTransaction;
  begin: () => Promise<QueryRunner>;
  /** Started by the first use, so that work without the database costs no connection. */
  started?: Promise<QueryRunner>;
  /** Work that nobody waited for must not begin it anew: nobody would end that. */
  isOver?: boolean;
  /** Writes that wait for `writeOut` or the commit. */
  waiting?: SqlStatement[];
  /** What was read in it and does not change. */
  known?: Map<string, Promise<unknown>>;
  afterCommit?: (() => void)[];
}

/** A request that opens its transactions itself: what they have in common. */
export interface EnteredRequest {
  prepare: (mode: Mode) => OpenTransaction;
  /** What a change is done within, besides its transaction. */
  around: <T>(work: () => Promise<T>) => Promise<T>;
}

/** What a row may be found by before it is known whose it is (see the policies of migration 0010). */
export type FoundBy = 'secret_hash' | 'sign_in_email';

/** Sent at once, so that what is sent next stands behind it. Answers with the rows of a query beside it. */
export async function writeWaiting(
  client: PoolClient,
  transaction: OpenTransaction,
  beside?: SqlStatement,
): Promise<object[]> {
  const [first, ...others] = transaction.waiting ?? [];
  transaction.waiting = undefined;
  const sent = first === undefined ? beside : joinStatements([first, ...others], beside);
  if (sent === undefined) return [];
  return (await client.query<object>(sent.text, [...sent.values])).rows;
}

/** What the transaction works with, if it was begun; it has it no more. */
export async function leave(transaction: OpenTransaction): Promise<QueryRunner | undefined> {
  const { started } = transaction;
  transaction.started = undefined;
  return started?.catch(() => undefined);
}

/** Gives the connection to nobody any more. */
export function giveUp(runner: QueryRunner): Promise<void> {
  const { releasePostgresConnection } = runner as unknown as {
    releasePostgresConnection: (error: Error) => Promise<void>;
  };
  return releasePostgresConnection.call(
    runner,
    new Error('The connection is not to be used again'),
  );
}

/** SET takes no parameters, so nothing but a UUID may get into its text. */
export function asUuid(firmId: string): string {
  if (!/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i.test(firmId)) {
    throw new Error(`A firm’s id is a UUID, not "${firmId}"`);
  }
  return firmId;
}

export function asUuids(array: string): string {
  if (!/^\{[0-9a-f,-]*\}$/.test(array)) throw new Error('Not an array of UUIDs');
  return array;
}
