import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { NewEntry, OutboxEntry, OutboxStore } from './outbox.js';

/** Something that was read of the service, and when it was asked for, by this phone’s clock. */
export interface KeptRead<Value = unknown> {
  value: Value;
  askedAt: string;
  etag?: string;
}

interface FieldSchema extends DBSchema {
  outbox: { key: number; value: OutboxEntry };
  reads: { key: string; value: KeptRead };
}

export type FieldDatabase = IDBPDatabase<FieldSchema>;

/** A later version adds stores and changes none: what waits in them is sent as it was entered. */
const VERSION = 1;

export function openFieldDatabase(): Promise<FieldDatabase> {
  return openDB<FieldSchema>('lastheard field', VERSION, {
    upgrade(database, oldVersion) {
      if (oldVersion >= 1) return;
      database.createObjectStore('outbox', { keyPath: 'order', autoIncrement: true });
      database.createObjectStore('reads');
    },
    blocking(_current, _blocked, event) {
      // A newer app waits for this tab to let go.
      (event.target as IDBDatabase).close();
    },
  });
}

/** The outbox on the phone’s disk: what is awaited is there after a crash. */
export class KeptOutbox implements OutboxStore {
  constructor(private readonly database: FieldDatabase) {}

  all(): Promise<OutboxEntry[]> {
    return this.database.getAll('outbox');
  }

  async write(changed: readonly OutboxEntry[], added: readonly NewEntry[]): Promise<void> {
    const writing = this.writing();
    await Promise.all([
      ...changed.map((entry) => writing.store.put(entry)),
      // The disk gives the order: no two tabs have the same.
      ...added.map((entry) => writing.store.add(entry as OutboxEntry)),
    ]);
    await writing.done;
  }

  async remove(orders: readonly number[]): Promise<void> {
    const writing = this.writing();
    await Promise.all(orders.map((order) => writing.store.delete(order)));
    await writing.done;
  }

  private writing() {
    return this.database.transaction('outbox', 'readwrite', { durability: 'strict' });
  }
}
