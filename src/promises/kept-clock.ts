import type { TroubleClass } from '../contracts/class-of-trouble.js';
import type { PromiseClock, PromiseState, TicketClock } from './ticket-clock.js';
import type { PromiseKind } from '../contracts/contract-kinds.js';

/** A promise as it is kept between two reckonings. */
export interface KeptPromise {
  promise: PromiseKind;
  promisedMinutes: number;
  state: PromiseState;
  /** RFC 3339. */
  dueAt: string | null;
  doneAt: string | null;
  takenMinutes: number;
}

/** By promise, the due instant of which a warning and a breach were told. */
export type ToldPromises = Partial<Record<PromiseKind, { warned?: string; breached?: string }>>;

/** What is to be written in the log since the clock was reckoned before. */
export interface ClockNews {
  kind: 'promise-warning' | 'promise-breach' | 'promise-changed';
  promise: PromiseKind;
  dueAt: string | null;
  /** Of a change, and of a breach that came with one: the due instant before. */
  wasDueAt?: string | null;
}

export interface ClockToKeep {
  contractId: string | null;
  troubleClass: TroubleClass;
  nextPromise: PromiseKind | null;
  nextState: PromiseState | null;
  dueAt: Date | null;
  lookAt: Date | null;
  kept: KeptPromise[];
}

/** What is kept of a clock: what is due next, and when to look again. */
export function toKeep(clock: TicketClock, now: number): ClockToKeep {
  const open = clock.promises.filter(({ doneAt }) => doneAt === null);
  const next = [...open].sort(
    (one, other) => (one.dueAt ?? Infinity) - (other.dueAt ?? Infinity),
  )[0];
  const ahead = open
    .flatMap(({ warnAt, dueAt }) => [warnAt, dueAt === null ? null : dueAt + 1])
    .filter((at) => at !== null && at > now) as number[];
  return {
    contractId: clock.contractId,
    troubleClass: clock.troubleClass,
    nextPromise: next?.promise ?? null,
    nextState: next?.state ?? null,
    dueAt: next?.dueAt == null ? null : new Date(next.dueAt),
    lookAt: ahead.length === 0 ? null : new Date(Math.min(...ahead)),
    kept: clock.promises.map(keptOf),
  };
}

/**
 * What is new against what was told: each warning and each breach of a due instant once, and a due instant that moved. One line for
 * one fact: what was due and missed at once, as in a report that is entered afterwards, is a breach alone, and a
 * promise that stays unkept when its due instant moves was told to be.
 */
export function newsOf(
  clock: TicketClock,
  before: { kept: readonly KeptPromise[]; told: ToldPromises },
  now: number,
): { news: ClockNews[]; told: ToldPromises } {
  const news: ClockNews[] = [];
  const told: ToldPromises = { ...before.told };
  for (const clockOfOne of clock.promises) {
    const { promise } = clockOfOne;
    const was = before.kept.find((one) => one.promise === promise);
    const already = { ...told[promise] };
    news.push(...newsOfPromise(clockOfOne, was, already, now));
    const { dueAt } = keptOf(clockOfOne);
    if (dueAt === null) continue;
    if (isNear(clockOfOne, now)) already.warned = dueAt;
    if (clockOfOne.state === 'breached') already.breached = dueAt;
    told[promise] = already;
  }
  return { news, told };
}

function newsOfPromise(
  clock: PromiseClock,
  was: KeptPromise | undefined,
  told: { warned?: string; breached?: string },
  now: number,
): ClockNews[] {
  const { promise, state } = clock;
  const { dueAt } = keptOf(clock);
  const moved = was !== undefined && was.dueAt !== dueAt ? { wasDueAt: was.dueAt } : undefined;
  const isBreach = state === 'breached' && dueAt !== null;
  const isToldBreach = was?.state === 'breached' && told.breached === was.dueAt;
  if (isBreach && !isToldBreach) {
    const isNew = told.breached !== dueAt || moved !== undefined;
    return isNew ? [{ kind: 'promise-breach', promise, dueAt, ...moved }] : [];
  }
  const news: ClockNews[] = [];
  if (moved !== undefined) news.push({ kind: 'promise-changed', promise, dueAt, ...moved });
  if (isNear(clock, now) && dueAt !== null && told.warned !== dueAt) {
    news.push({ kind: 'promise-warning', promise, dueAt });
  }
  return news;
}

function isNear({ state, warnAt }: PromiseClock, now: number): boolean {
  return state === 'running' && warnAt !== null && warnAt <= now;
}

function keptOf({
  promise,
  promisedMinutes,
  state,
  dueAt,
  doneAt,
  takenMs,
}: PromiseClock): KeptPromise {
  return {
    promise,
    promisedMinutes,
    state,
    dueAt: dueAt === null ? null : new Date(dueAt).toISOString(),
    doneAt: doneAt === null ? null : new Date(doneAt).toISOString(),
    takenMinutes: Math.round(takenMs / 60_000),
  };
}
