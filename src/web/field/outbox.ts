/** What an entry is about, to be named where it is shown, and sent elsewhere. */
export interface EntrySubject {
  ticketId: string | null;
  visitId: string | null;
  siteId: string;
  /** "18, Larkfield Lower School" */
  name: string;
}

/** Why the service does not take an entry, in its words. */
export interface Refusal {
  status: number;
  message: string;
  /** What is wrong with which field, by JSON pointer; an older app kept none, and told it all in `message`. */
  errors?: readonly { field: string; reason: string }[];
  /** The ticket that has its reports now. */
  mergedInto: string | null;
  /** What it takes once `confirmed` says that it is meant so; an older app kept none. */
  confirm?: readonly string[];
}

/** Something that was entered: kept here until the service has it and says so. */
export interface OutboxEntry {
  /** Goes up by each entry on this phone: they are sent in this order. */
  order: number;
  /** What the service knows it by: sent twice it is one. */
  id: string;
  /** RFC 3339 */
  happenedAt: string;
  /** Whose it is: nobody else sends it. */
  personId: string;
  personName: string;
  subject: EntrySubject;
  /** Below /api/v1; always a POST. */
  path: string;
  body: Readonly<Record<string, unknown>>;
  /** A photo’s own; an older app kept none. Gone once the service has it. */
  picture?: Blob | undefined;
  /** What it says, as it is shown. */
  words: string;
  state: 'waiting' | 'refused' | 'taken';
  refusal: Refusal | null;
  /** When the service took it, by this phone’s clock. */
  takenAt: string | null;
  /** It says that another was discarded. */
  isGivingUp: boolean;
}

export type EnteredEntry = Omit<
  OutboxEntry,
  'order' | 'state' | 'refusal' | 'takenAt' | 'isGivingUp'
>;

/** The disk gives it its order. */
export type NewEntry = Omit<OutboxEntry, 'order'>;

/** Where entries are kept over reloads and crashes. What is awaited is kept. */
export interface OutboxStore {
  /** By their order. */
  all(): Promise<OutboxEntry[]>;
  /** Those that are here are changed and the others come last; all of it or nothing. */
  write(changed: readonly OutboxEntry[], added: readonly NewEntry[]): Promise<void>;
  remove(orders: readonly number[]): Promise<void>;
}

export type Answered =
  | { kind: 'taken' }
  | { kind: 'refused'; refusal: Refusal }
  /** Not reached, or not now: it may have arrived all the same. */
  | { kind: 'later' }
  | { kind: 'signed-out' };

export type SentAll = 'all' | 'later' | 'signed-out';

export async function enter(store: OutboxStore, entered: readonly EnteredEntry[]): Promise<void> {
  await store.write([], entered.map(asNew));
}

function asNew(entry: EnteredEntry): NewEntry {
  return { ...entry, state: 'waiting', refusal: null, takenAt: null, isGivingUp: false };
}

/**
 * Sends what waits, in order, photos last, until nothing more can be sent. To be run by one tab at a time; run twice at once, nothing is taken
 * twice, as the service knows each entry by its id. What the service refuses holds up what comes after it about the same
 * ticket or visit, and nothing else.
 */
export async function sendAll(
  store: OutboxStore,
  personId: string,
  send: (entry: OutboxEntry) => Promise<Answered>,
  now: () => string,
): Promise<SentAll> {
  for (;;) {
    const next = nextToSend(await store.all(), personId);
    if (next === undefined) return 'all';
    const answered = await send(next);
    switch (answered.kind) {
      case 'taken':
        await store.write([{ ...next, picture: undefined, state: 'taken', takenAt: now() }], []);
        break;
      case 'refused':
        await store.write([{ ...next, state: 'refused', refusal: answered.refusal }], []);
        break;
      case 'later':
      case 'signed-out':
        return answered.kind;
    }
  }
}

function nextToSend(entries: readonly OutboxEntry[], personId: string): OutboxEntry | undefined {
  const ready = entries.filter(
    (entry) =>
      entry.state === 'waiting' && entry.personId === personId && !isHeldUp(entry, entries),
  );
  // With a bad signal a picture takes its time, and nothing that is said stands on one.
  return ready.find(({ picture }) => picture === undefined) ?? ready[0];
}

/** Whether something before it about the same is refused, and not settled; a photo holds up nothing. */
export function isHeldUp(entry: OutboxEntry, entries: readonly OutboxEntry[]): boolean {
  return entries.some(
    (other) =>
      other.state === 'refused' &&
      other.picture === undefined &&
      other.order < entry.order &&
      isAboutSame(other, entry),
  );
}

function isAboutSame({ subject: a }: OutboxEntry, { subject: b }: OutboxEntry): boolean {
  return (
    (a.ticketId !== null && a.ticketId === b.ticketId) ||
    (a.visitId !== null && a.visitId === b.visitId)
  );
}

/** Not taken by the service yet. */
export function stillHere(entries: readonly OutboxEntry[]): OutboxEntry[] {
  return entries.filter(({ state }) => state !== 'taken');
}

/** As it is on the disk, if it is still to be settled: another touch or another tab may have done it. */
export async function findRefused(
  store: OutboxStore,
  { order }: OutboxEntry,
): Promise<OutboxEntry | undefined> {
  return (await store.all()).find((one) => one.order === order && one.state === 'refused');
}

/**
 * Sends it once more, with what was changed, and what was entered with that. It is another thing to the service, which refused
 * the first.
 */
export async function settleByChange(
  store: OutboxStore,
  entry: OutboxEntry,
  changed: Pick<OutboxEntry, 'id'> &
    Partial<Pick<OutboxEntry, 'path' | 'body' | 'words' | 'picture' | 'happenedAt'>>,
  more: readonly EnteredEntry[] = [],
): Promise<void> {
  await store.write([{ ...entry, ...changed, state: 'waiting', refusal: null }], more.map(asNew));
}

/** Gives it, and all that waits behind it about the same ticket, to the ticket that has its reports now. */
export async function settleByOtherTicket(
  store: OutboxStore,
  refused: OutboxEntry,
  ticketId: string,
  newId: () => string,
): Promise<void> {
  const before = refused.subject.ticketId;
  if (before === null) return;
  const moved = stillHere(await store.all()).filter(
    ({ subject, order }) => subject.ticketId === before && order >= refused.order,
  );
  await store.write(
    moved.map((entry) => ({
      ...entry,
      id: newId(),
      path: entry.path.replace(before, ticketId),
      subject: { ...entry.subject, ticketId },
      state: 'waiting' as const,
      refusal: null,
    })),
    [],
  );
}

export interface Discarding {
  id: string;
  /** That it was discarded, what it said and why: a note on its ticket. */
  note: string;
}

/**
 * Gives it up. That is recorded in its place, as a note on the ticket that has its reports now; where there is no ticket, or the record itself
 * finds none, it is only gone.
 */
export async function settleByDiscarding(
  store: OutboxStore,
  entry: OutboxEntry,
  { id, note }: Discarding,
): Promise<void> {
  const mergedInto = entry.refusal?.mergedInto ?? null;
  const ticketId = mergedInto ?? (entry.isGivingUp ? null : entry.subject.ticketId);
  if (ticketId === null) {
    await store.remove([entry.order]);
    return;
  }
  const saidBy = { name: entry.personName, kind: 'technician' };
  const record = { body: { saidAt: entry.happenedAt, saidBy, note }, words: note };
  const givenUp: OutboxEntry = {
    ...entry,
    ...(!entry.isGivingUp && record),
    id,
    path: `/tickets/${ticketId}/notes`,
    picture: undefined,
    subject: { ...entry.subject, ticketId },
    state: 'waiting',
    refusal: null,
    isGivingUp: true,
  };
  await store.write([givenUp], []);
}

/** Forgets what the service took, as far as something newer was read that tells of it. Whether there was any. */
export async function forgetTaken(
  store: OutboxStore,
  isKnown: (entry: OutboxEntry) => Promise<boolean>,
): Promise<boolean> {
  const orders: number[] = [];
  for (const entry of await store.all())
    if (entry.state === 'taken' && (await isKnown(entry))) orders.push(entry.order);
  if (orders.length > 0) await store.remove(orders);
  return orders.length > 0;
}
