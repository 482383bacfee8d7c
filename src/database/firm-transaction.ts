import { AsyncLocalStorage } from 'node:async_hooks';
import { Injectable } from '@nestjs/common';
import type { Pool, PoolClient } from 'pg';
import {
  DataSource,
  type EntityManager,
  type EntityMetadata,
  type EntityTarget,
  type QueryRunner,
} from 'typeorm';
import { isConnectionLost } from '../shared/database-failure.js';
import { FirmRead, type PreparedStatement } from './firm-read.js';
import type { SqlStatement } from './join-statements.js';
import {
  asUuid,
  asUuids,
  type EnteredRequest,
  type FoundBy,
  giveUp,
  leave,
  type Mode,
  type OpenTransaction,
  writeWaiting,
} from './open-transaction.js';
import { SentTogether } from './sent-together.js';
import { SharedReads } from './shared-reads.js';
import { WriteTogether } from './write-together.js';

// Of the process, as Node advises: each one more costs every promise of it, for good.
const transactions = new AsyncLocalStorage<OpenTransaction | undefined>();
const requests = new AsyncLocalStorage<EnteredRequest>();

/**
 * One unit of database work for one firm: a transaction whose `app.firm_id` the row-level security
 * policies read. Repositories ask `manager()`; nothing else reaches the database.
 */
@Injectable()
export class FirmTransaction {
  private readonly together: WriteTogether;
  private readonly shared = new SharedReads();

  constructor(
    private readonly dataSource: DataSource,
    private readonly sent: SentTogether,
  ) {
    this.together = new WriteTogether((dataSource.driver as unknown as { master: Pool }).master);
  }

  /** Runs the work in one transaction: committed when it resolves, rolled back when it throws. */
  run<T>(firmId: string, mode: Mode, work: () => T | Promise<T>): Promise<T> {
    return this.runIn(this.prepare(firmId, '', mode), work);
  }

  /** Runs the work in a transaction of no firm, which sees only the rows that the value finds. */
  runFinding<T>(by: FoundBy, value: string, work: () => Promise<T>): Promise<T> {
    const begin = async () => {
      const runner = await this.beginWith('read', `SET LOCAL app.firm_id = ''`);
      try {
        await runner.query(`SELECT set_config($1, $2, true)`, [`app.${by}`, value]);
      } catch (error) {
        await this.endFailed('read', runner, error);
        throw error;
      }
      return runner;
    };
    const again = () => {
      throw new Error('A transaction of no firm is one');
    };
    return this.runIn({ mode: 'read', again, begin }, work);
  }

  /**
   * A transaction of a firm that is yet to begin, for whoever is to work in it. `siteIds` is what
   * they reach of the firm (migration 0011), an array of the database as text; empty: all of it.
   */
  prepare(firmId: string, siteIds: string, mode: Mode): OpenTransaction {
    return {
      firmId,
      reach: mode === 'read' ? { firmId, siteIds } : undefined,
      mode,
      again: (other) => this.prepare(firmId, siteIds, other),
      // Most reads never come to this.
      begin: () => this.beginWith(mode, setReach(firmId, siteIds)),
    };
  }

  async runIn<T>(transaction: OpenTransaction, work: () => T | Promise<T>): Promise<T> {
    try {
      const result = await transactions.run(transaction, work);
      // Nothing but these needed a connection.
      if (transaction.waiting !== undefined) await begun(transaction);
      transaction.isOver = true;
      if (transaction.started !== undefined) await this.commit(transaction);
      for (const act of transaction.afterCommit ?? []) act();
      return result;
    } catch (error) {
      transaction.isOver = true;
      const runner = await leave(transaction);
      if (runner !== undefined) await this.endFailed(transaction.mode, runner, error);
      throw error;
    }
  }

  /** What goes on from here is a read in the transaction, which `runEntered` ends: its handler is yet to be found. */
  enterRead(transaction: OpenTransaction, goOn: () => void): void {
    transactions.run(transaction, goOn);
  }

  /** Runs the work of a read in the transaction that was entered for it, if one was. */
  runEntered<T>(work: () => T | Promise<T>): T | Promise<T> {
    const transaction = transactions.getStore();
    return transaction === undefined ? work() : this.runIn(transaction, work);
  }

  /** What must not happen unless the running transaction is kept, and then after it. */
  afterCommit(act: () => void): void {
    (this.running().afterCommit ??= []).push(act);
  }

  /**
   * Writes what need not be there before `writeOut` or else the commit: all that waits goes out as one statement, and
   * fails it where one fails. No two of them may change the same row.
   */
  writeLater(text: string, values: readonly unknown[]): void {
    (this.running().waiting ??= []).push({ text, values });
  }

  /** Writes what waits in the running transaction, and reads in the same statement what there was before. */
  async writeOut<Row extends object>(beside: SqlStatement): Promise<Row[]> {
    const { queryRunner } = await this.manager();
    const client = (await queryRunner?.connect()) as PoolClient;
    return (await writeWaiting(client, this.running(), beside)) as Row[];
  }

  /** Reads only once in the running transaction what does not change in it. */
  once<T>(key: string, read: () => Promise<T>): Promise<T> {
    const known = (this.running().known ??= new Map<string, Promise<unknown>>());
    const reading = known.get(key) ?? read();
    known.set(key, reading);
    return reading as Promise<T>;
  }

  /** The work opens its transactions itself, by `read` and `write`: none is held while it works something out. */
  enter<T>(request: EnteredRequest, work: () => Promise<T>): Promise<T> {
    return transactions.run(undefined, () => requests.run(request, work));
  }

  /** Reads in a short transaction of the entered request, or in the one that is running. */
  read<T>(work: () => Promise<T>): Promise<T> {
    if (transactions.getStore() !== undefined) return work();
    return this.runIn(this.request().prepare('read'), work);
  }

  /**
   * The same, and in one transaction for all who reach the same and ask for the same, by `what`, before it begins. It gives nothing that
   * is of one of them, their language for one, and nobody changes what it gives.
   */
  readTogether<T>(what: string, work: () => Promise<T>): Promise<T> {
    if (transactions.getStore() !== undefined) return work();
    const transaction = this.request().prepare('read');
    const key = JSON.stringify([transaction.reach, what]);
    return this.shared.read(key, () => this.runIn(transaction, work));
  }

  /** The change that the entered request is about. */
  write<T>(work: () => Promise<T>): Promise<T> {
    const { prepare, around } = this.request();
    return this.runIn(prepare('write'), () => around(work));
  }

  /** Writes down what was worked out after the change, in a transaction of its own. */
  writeAfterwards<T>(work: () => T | Promise<T>): Promise<T> {
    return this.runIn(this.request().prepare('write'), work);
  }

  private request(): EnteredRequest {
    const request = requests.getStore();
    if (request === undefined) throw new Error('No request opens its transactions itself here');
    return request;
  }

  /** Before anything is read: all that is read in the running transaction is of one moment, not each statement of its own. */
  async beOfOneMoment(): Promise<void> {
    const manager = await this.manager();
    await manager.query('SET TRANSACTION ISOLATION LEVEL REPEATABLE READ');
  }

  /** The manager of the running transaction; outside of `run` there is none. */
  async manager(): Promise<EntityManager> {
    return (await begun(this.running())).manager;
  }

  /**
   * Rows by a prepared statement, each as the values of its columns. Statements that only read see what is committed when
   * each begins, so while none needed a connection it is a transaction by itself, in one packet with those of others.
   */
  rows(statement: PreparedStatement): Promise<unknown[][]> {
    const { reach, started } = this.running();
    if (reach === undefined || started !== undefined) return this.rowsWithin(statement);
    return this.sent.send((client) => new FirmRead(statement, reach).answer(client));
  }

  private async rowsWithin(statement: PreparedStatement): Promise<unknown[][]> {
    const { queryRunner } = await this.manager();
    const client = (await queryRunner?.connect()) as PoolClient;
    const { name, text, values } = statement;
    const asked = { name, text, values: [...values], rowMode: 'array' as const };
    return (await client.query<unknown[]>(asked)).rows;
  }

  metadataOf(entity: EntityTarget<object>): EntityMetadata {
    return this.dataSource.getMetadata(entity);
  }

  private running(): OpenTransaction {
    const transaction = transactions.getStore();
    if (transaction === undefined) throw new Error('Database work outside of a firm’s transaction');
    if (transaction.isOver) throw new Error('Database work after its transaction was over');
    return transaction;
  }

  /** The firm of the running transaction. */
  firmId(): string {
    const firmId = transactions.getStore()?.firmId;
    if (firmId === undefined) throw new Error('There is no transaction of a firm');
    return firmId;
  }

  private async beginWith(mode: Mode, settings: string): Promise<QueryRunner> {
    const runner = this.dataSource.createQueryRunner();
    try {
      const client = (await runner.connect()) as PoolClient;
      this.together.now(client);
      // Past the ORM, in one message, and not waited for: the connection is pipelined, so the first
      // query follows at once. Should this fail, so does every query behind it.
      client.query(`BEGIN${mode === 'read' ? ' READ ONLY' : ''}; ${settings}`, ignore);
      // The ORM asks for this before it locks a row.
      (runner as { isTransactionActive: boolean }).isTransactionActive = true;
      return runner;
    } catch (error) {
      await runner.release();
      throw error;
    }
  }

  private async commit(transaction: OpenTransaction): Promise<void> {
    const runner = await leave(transaction);
    if (runner === undefined) return;
    if (transaction.mode === 'read') return this.endRead(runner, 'commit');
    try {
      const client = (await runner.connect()) as PoolClient;
      this.together.now(client);
      const written = writeWaiting(client, transaction);
      const [committed] = await Promise.all([client.query('COMMIT'), written]);
      // What had failed before, and was passed over, is rolled back by it without an error.
      if (committed.command !== 'COMMIT') throw new Error('The transaction was not committed');
    } catch (error) {
      await this.endFailed('write', runner, error);
      throw error;
    }
    await runner.release();
  }

  /** What went wrong is told by whoever calls, not that it could not be taken back as well. */
  private async endFailed(mode: Mode, runner: QueryRunner, error: unknown): Promise<void> {
    // A connection that was lost takes everything back by itself, and is no use to anybody else.
    if (isConnectionLost(error)) return giveUp(runner);
    if (mode === 'read') return this.endRead(runner, 'rollback');
    try {
      await ((await runner.connect()) as PoolClient).query('ROLLBACK');
      await runner.release();
    } catch {
      await giveUp(runner);
    }
  }

  /**
   * Nothing hangs on how a read ends, so neither its answer nor the connection's next transaction
   * waits for it: that one stands behind it in the pipeline.
   */
  private async endRead(runner: QueryRunner, end: 'commit' | 'rollback'): Promise<void> {
    const client = (await runner.connect()) as PoolClient;
    this.together.soon(client);
    client.query(end, ignore);
    await runner.release();
  }
}

function setReach(firmId: string, siteIds: string): string {
  const setFirm = `SET LOCAL app.firm_id = '${asUuid(firmId)}'`;
  return siteIds === '' ? setFirm : `${setFirm}; SET LOCAL app.site_ids = '${asUuids(siteIds)}'`;
}

function begun(transaction: OpenTransaction): Promise<QueryRunner> {
  return (transaction.started ??= transaction.begin());
}

function ignore(): void {
  // What hangs on it fails by itself.
}
