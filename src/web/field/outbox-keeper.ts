import { uuidv7 } from 'uuidv7';
import { base64Of } from '../parts/base64-of.js';
import { withInstant } from './entry-instant.js';
import { FIELD_WORDS } from './field-words.js';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { SERVICE_CLOCK, type ServiceClock } from '../parts/service-clock.js';
import type { SignedIn } from '../parts/wire.js';
import {
  type Answered,
  enter,
  type EnteredEntry,
  findRefused,
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
/** What is refused is sent by nobody until it is settled: that need not wait for a photo that goes up. */
const SETTLING = 'lastheard outbox, settling';

const EVERY_MS = 20_000;

/** What is entered here, for all that shows it: kept at once, sent when it can be. */
export class OutboxKeeper {
  /** Empty until it has looked. */
  entries: readonly OutboxEntry[] = [];
  hasLooked = false;
  reach: WhatWasReached = 'unknown';
  private readonly listeners = new Set<() => void>();
  private tabs: BroadcastChannel | undefined;
  private isQueued = false;
  private timer: ReturnType<typeof setInterval> | undefined;

  constructor(
    private readonly store: OutboxStore,
    readonly person: SignedIn['person'],
    /** Told once something arrived at the service. */
    private readonly onSent: () => void,
    private readonly clock: ServiceClock = SERVICE_CLOCK,
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

  /**
   * Kept once this is done, all of it; what the disk refuses is thrown. The first takes the place, and the instant, of a refused
   * entry that is named.
   */
  async enter(
    subject: EntrySubject,
    entered: readonly ToEnter[],
    instead?: OutboxEntry,
  ): Promise<void> {
    const { id: personId, name: personName } = this.person;
    // One after the other: what was entered first is told first.
    const instants = this.clock.stamps(entered.length);
    const made = (one: ToEnter): EnteredEntry => {
      const { path, words, picture } = one;
      const happenedAt = instants[entered.indexOf(one)] ?? '';
      const body = withInstant(one, happenedAt);
      const by = { personId, personName };
      return { id: uuidv7(), happenedAt, ...by, subject, path, body, words, picture };
    };
    const [first, ...more] = entered;
    const keep = async () => {
      const refused = instead && (await findRefused(this.store, instead));
      if (refused === undefined || first === undefined) return enter(this.store, entered.map(made));
      const changed = { ...first, body: withInstant(first, refused.happenedAt), id: uuidv7() };
      await settleByChange(this.store, refused, changed, more.map(made));
    };
    await (instead === undefined ? keep() : this.settling(keep));
    await this.changed();
    this.sync();
  }

  /** Calls meanwhile come to one: whoever waits for the lock sends all that is there by then. */
  readonly sync = (): void => {
    if (document.visibilityState !== 'visible' || this.isQueued) return;
    this.isQueued = true;
    void this.alone(() => {
      this.isQueued = false;
      return this.sendNow();
    });
  };

  /** The same once more. It keeps its instant, but for one that is still to come: the phone's clock was another then. */
  sendAgain(entry: OutboxEntry): Promise<void> {
    return this.settle(entry, (refused) => {
      const now = new Date(this.clock.now()).toISOString();
      const dated = refused.happenedAt > now && {
        happenedAt: now,
        body: withInstant(refused, now),
      };
      return settleByChange(this.store, refused, { id: uuidv7(), ...dated });
    });
  }

  /** It is meant as it was entered, and says so. */
  confirm(entry: OutboxEntry): Promise<void> {
    return this.settle(entry, (refused) => {
      const before = (refused.body['confirmed'] ?? []) as readonly string[];
      const confirmed = [...new Set([...before, ...(refused.refusal?.confirm ?? [])])];
      const body = { ...refused.body, confirmed };
      return settleByChange(this.store, refused, { id: uuidv7(), body });
    });
  }

  sendTo(entry: OutboxEntry, ticketId: string): Promise<void> {
    // What waits behind it goes along, and must not be on its way meanwhile.
    return this.alone(() =>
      this.settle(entry, (refused) => settleByOtherTicket(this.store, refused, ticketId, uuidv7)),
    );
  }

  discard(entry: OutboxEntry, note: string): Promise<void> {
    return this.settle(entry, (refused) =>
      settleByDiscarding(this.store, refused, { id: uuidv7(), note }),
    );
  }

  /** What the service took, and what is read of it tells now. */
  async forget(isKnown: (entry: OutboxEntry) => Promise<boolean>): Promise<void> {
    await this.alone(async () => {
      if (await forgetTaken(this.store, isKnown)) this.tabs?.postMessage('changed');
    });
    await this.show();
  }

  private async settle(
    entry: OutboxEntry,
    work: (refused: OutboxEntry) => Promise<void>,
  ): Promise<void> {
    await this.settling(async () => {
      const refused = await findRefused(this.store, entry);
      if (refused !== undefined) await work(refused);
    });
    await this.changed();
    this.sync();
  }

  private async sendNow(): Promise<void> {
    const waiting = await this.store.all();
    if (waiting.every(({ state }) => state !== 'waiting')) {
      // What was said of an earlier sending is said no longer.
      this.reach = 'unknown';
      return this.show();
    }
    const before = takenIn(waiting);
    const sent = await sendAll(this.store, this.person.id, this.sending(), () =>
      new Date().toISOString(),
    );
    this.reach = sent === 'all' ? 'reached' : sent;
    await this.changed();
    if (takenIn(await this.store.all()) !== before) this.onSent();
  }

  private sending(): (entry: OutboxEntry) => Promise<Answered> {
    let session: SignedIn | undefined;
    const send = async (entry: OutboxEntry): Promise<Answered> => {
      const isNew = session === undefined;
      session ??= await ask<SignedIn>('GET', '/session');
      const { person, csrfToken } = session;
      // Somebody else signed in on this phone: theirs is no name to send this in.
      if (person.id !== this.person.id) return { kind: 'signed-out' };
      try {
        await ask('POST', entry.path, {
          body: await wholeBody(entry),
          csrfToken,
          ...patienceFor(entry),
        });
        return { kind: 'taken' };
      } catch (error) {
        // The session may have become another one meanwhile, which this token is not of.
        if (isNew || !(error instanceof Failure) || error.status !== 403) throw error;
        session = undefined;
        return send(entry);
      }
    };
    return (entry) => send(entry).catch((error: unknown) => answered(error, entry));
  }

  private settling(work: () => Promise<void>): Promise<void> {
    return navigator.locks.request(SETTLING, work);
  }

  private alone(work: () => Promise<void>): Promise<void> {
    return navigator.locks.request(LOCK, work);
  }

  private async changed(): Promise<void> {
    this.tabs?.postMessage('changed');
    await this.show();
  }

  private async show(): Promise<void> {
    this.entries = withForgotten(await this.store.all(), this.entries);
    this.hasLooked = true;
    for (const listener of this.listeners) listener();
  }
}

/** So much of what is forgotten on the disk is remembered while the page is open. */
const MOST_FORGOTTEN = 200;

/**
 * What the service took and the disk forgot is still known here: a page that shows what was read before stands on it until it shows
 * what was read since. What waited and is gone was sent, and forgotten, by another tab.
 */
function withForgotten(
  onDisk: readonly OutboxEntry[],
  before: readonly OutboxEntry[],
): OutboxEntry[] {
  const orders = new Set(onDisk.map(({ order }) => order));
  const takenAt = new Date().toISOString();
  const forgotten = before
    .filter(({ order, state }) => state !== 'refused' && !orders.has(order))
    .map((entry): OutboxEntry => {
      return entry.state === 'taken'
        ? entry
        : { ...entry, picture: undefined, state: 'taken', takenAt };
    });
  return [...forgotten.slice(-MOST_FORGOTTEN), ...onDisk].sort((a, b) => a.order - b.order);
}

/** Something to be entered; its id and instant come at once. */
export interface ToEnter {
  path: string;
  body: Readonly<Record<string, unknown>>;
  words: string;
  picture?: Blob;
}

async function wholeBody({ id, body, picture }: OutboxEntry): Promise<object> {
  if (picture === undefined) return { ...body, id };
  const image = await base64Of(picture).catch(() => {
    throw new Failure(422, FIELD_WORDS.photo.lost);
  });
  return { ...body, id, image };
}

/** With a bad signal a picture takes minutes. */
const PATIENCE_WITH_PICTURES_MS = 180_000;

function patienceFor({ picture }: OutboxEntry) {
  return picture === undefined ? {} : { patienceMs: PATIENCE_WITH_PICTURES_MS };
}

function takenIn(entries: readonly OutboxEntry[]): number {
  return entries.filter(({ state }) => state === 'taken').length;
}

/** What was done about a visit is said by nobody else, whoever ended it. */
function saysMore({ body }: OutboxEntry): boolean {
  return body['workDone'] !== undefined;
}

function answered(error: unknown, entry: OutboxEntry): Answered {
  if (!(error instanceof Failure)) throw error;
  if (error.isAlreadySo && !saysMore(entry)) return { kind: 'taken' };
  const { status, message, errors, mergedInto, confirm, isForLater } = error;
  if (status === 401) return { kind: 'signed-out' };
  if (isForLater) return { kind: 'later' };
  return { kind: 'refused', refusal: { status, message, errors, mergedInto, confirm } };
}
