import { uuidv7 } from 'uuidv7';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import type { SignedIn } from '../parts/wire.js';
import {
  type Answered,
  enter,
  forgetTaken,
  type EntrySubject,
  type OutboxEntry,
  type OutboxStore,
  sendAll,
  settleByChange,
  settleByDiscarding,
  settleByOtherTicket,
} from './outbox.js';

/** How it stands with the service: reached, not reached, or it wants somebody to sign in again. */
export type WhatWasReached = 'unknown' | 'reached' | 'later' | 'signed-out';

/** One tab at a time sends and settles; the others wait, and then find it done. */
const LOCK = 'lastheard outbox';

const EVERY_MS = 20_000;

/** What is entered here, for all that shows it: kept at once, sent when it can be. */
export class OutboxKeeper {
  entries: readonly OutboxEntry[] = [];
  reach: WhatWasReached = 'unknown';
  private readonly listeners = new Set<() => void>();
  private tabs: BroadcastChannel | undefined;
  private timer: ReturnType<typeof setInterval> | undefined;

  constructor(
    private readonly store: OutboxStore,
    readonly person: SignedIn['person'],
    /** Told once something arrived at the service. */
    private readonly onSent: () => void,
  ) {}

  start(): void {
    this.tabs = new BroadcastChannel('lastheard field');
    this.tabs.addEventListener('message', () => void this.show());
    addEventListener('online', this.sync);
    document.addEventListener('visibilitychange', this.sync);
    this.timer = setInterval(this.sync, EVERY_MS);
    void this.show();
    this.sync();
  }

  stop(): void {
    clearInterval(this.timer);
    removeEventListener('online', this.sync);
    document.removeEventListener('visibilitychange', this.sync);
    this.tabs?.close();
    this.tabs = undefined;
  }

  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  /** Kept once this is done; what the disk refuses is thrown. */
  async enter(subject: EntrySubject, entered: readonly ToEnter[]): Promise<void> {
    const { id: personId, name: personName } = this.person;
    for (const one of entered) {
      const { path, words } = one;
      const happenedAt = new Date().toISOString();
      const body = withInstant(one, happenedAt);
      const by = { personId, personName };
      await enter(this.store, { id: uuidv7(), happenedAt, ...by, subject, path, body, words });
    }
    await this.changed();
    this.sync();
  }

  readonly sync = (): void => {
    if (document.visibilityState === 'visible') void this.alone(() => this.sendNow());
  };

  /** Left out: the same once more. It keeps its instant. */
  change(entry: OutboxEntry, to?: ToEnter): Promise<void> {
    const changed = to && { ...to, body: withInstant(to, entry.happenedAt) };
    return this.settle(() => settleByChange(this.store, entry, { id: uuidv7(), ...changed }));
  }

  sendTo(entry: OutboxEntry, ticketId: string): Promise<void> {
    return this.settle(() => settleByOtherTicket(this.store, entry, ticketId, uuidv7));
  }

  discard(entry: OutboxEntry, note: string): Promise<void> {
    return this.settle(() => settleByDiscarding(this.store, entry, { id: uuidv7(), note }));
  }

  /** What the service took, and what is read of it tells now. */
  async forget(isKnown: (entry: OutboxEntry) => Promise<boolean>): Promise<void> {
    const before = this.entries.length;
    await this.alone(() => forgetTaken(this.store, isKnown));
    await this.show();
    if (this.entries.length !== before) this.tabs?.postMessage('changed');
  }

  private async settle(work: () => Promise<void>): Promise<void> {
    await this.alone(work);
    await this.changed();
    this.sync();
  }

  private async sendNow(): Promise<void> {
    const waiting = await this.store.all();
    if (waiting.every(({ state }) => state !== 'waiting')) return;
    const before = takenIn(waiting);
    let csrfToken: string | undefined;
    const send = async (entry: OutboxEntry): Promise<Answered> => {
      csrfToken ??= (await ask<SignedIn>('GET', '/session')).csrfToken;
      await ask('POST', entry.path, { body: { ...entry.body, id: entry.id }, csrfToken });
      return { kind: 'taken' };
    };
    const sent = await sendAll(
      this.store,
      this.person.id,
      (entry) => send(entry).catch(answered),
      () => new Date().toISOString(),
    );
    this.reach = sent === 'all' ? 'reached' : sent;
    await this.changed();
    if (takenIn(await this.store.all()) !== before) this.onSent();
  }

  private alone(work: () => Promise<void>): Promise<void> {
    return navigator.locks.request(LOCK, work);
  }

  private async changed(): Promise<void> {
    this.tabs?.postMessage('changed');
    await this.show();
  }

  private async show(): Promise<void> {
    this.entries = await this.store.all();
    for (const listener of this.listeners) listener();
  }
}

/** Something to be entered; its id and instant come at once. */
export interface ToEnter {
  path: string;
  body: Readonly<Record<string, unknown>>;
  words: string;
}

function takenIn(entries: readonly OutboxEntry[]): number {
  return entries.filter(({ state }) => state === 'taken').length;
}

function withInstant({ path, body }: ToEnter, happenedAt: string): ToEnter['body'] {
  const instant = instantOf(path);
  return instant === null ? body : { ...body, [instant]: happenedAt };
}

/** What each route calls the instant at which something was so; null where it takes none. */
function instantOf(path: string): string | null {
  const [, collection, , route] = path.split('/');
  if (route === undefined || route === 'signatures') return null;
  if (route === 'readings') return 'takenAt';
  if (collection !== 'visits') return 'saidAt';
  return route === 'moves' ? 'at' : 'testedAt';
}

const NOT_NOW: readonly number[] = [0, 408, 425, 429];

function answered(error: unknown): Answered {
  if (!(error instanceof Failure)) throw error;
  const { status, mergedInto } = error;
  if (status === 401) return { kind: 'signed-out' };
  if (NOT_NOW.includes(status) || status >= 500) return { kind: 'later' };
  const reasons = error.errors.map(({ field, reason }) => `${field.slice(1)} ${reason}`);
  const message = [error.message, ...reasons].join(' ');
  return { kind: 'refused', refusal: { status, message, mergedInto } };
}
