import type { PromiseKind } from '../contracts/contract-kinds.js';
import type { TroubleClass } from '../contracts/class-of-trouble.js';
import type { Pause, PauseReason } from './promise-clock.js';

/** What a ticket's log says of its course, oldest first; instants in milliseconds since 1970. */
export type CourseEntry =
  | { kind: 'move'; at: number; from: string; to: string }
  | { kind: 'mending'; at: number; mending: 'lasting' | 'temporary' }
  | { kind: 'pause'; at: number; saidBy: string; reason: PauseReason; evidence: string }
  | { kind: 'resume'; at: number }
  | { kind: 'trouble-class'; at: number; troubleClass: TroubleClass | null; reason: string }
  | { kind: 'breach-cause'; at: number; promise: PromiseKind; cause: string };

type Move = Extract<CourseEntry, { kind: 'move' }>;

/** States in which what was reported works, for the time being at least. */
const RESTORED: readonly string[] = ['bridged', 'mended', 'closed'];

export interface Course {
  /** Null: not yet. */
  respondedAt: number | null;
  restoredAt: number | null;
  pauses: Pause[];
}

/** When somebody came, when it worked again, and what does not count, as the log has it. */
export function courseOf(entries: readonly CourseEntry[], onSiteAt: readonly number[]): Course {
  const inOrder = [...entries].sort((one, other) => one.at - other.at);
  const moves = inOrder.flatMap(moveBy);
  const restored = moves.filter(({ to }) => RESTORED.includes(to)).map(({ at }) => at);
  const atWork = moves.filter(({ to }) => to === 'at-work').map(({ at }) => at);
  // What works again before anybody came wants nobody any more.
  const came = Math.min(...onSiteAt, ...atWork, ...restored);
  return {
    respondedAt: came === Infinity ? null : came,
    restoredAt: restoredAtOf(moves),
    pauses: pausesOf(inOrder),
  };
}

/** What an entry moved the ticket to; a mending does so by itself. */
function moveBy(entry: CourseEntry): Move[] {
  if (entry.kind === 'move') return [entry];
  if (entry.kind !== 'mending') return [];
  // From where does not matter of what restores.
  const to = entry.mending === 'temporary' ? 'bridged' : 'mended';
  return [{ kind: 'move', at: entry.at, from: '', to }];
}

/** A mending that did not hold is none; leaving a bridged ticket for the lasting mending is no new fault. */
function restoredAtOf(moves: readonly Move[]): number | null {
  let restoredAt: number | null = null;
  for (const { at, from, to } of moves) {
    if (RESTORED.includes(to)) restoredAt ??= at;
    else if (from !== 'bridged') restoredAt = null;
  }
  return restoredAt;
}

/** The time that a ticket was closed before it was taken up again does not count; nothing waits any more then. */
function pausesOf(inOrder: readonly CourseEntry[]): Pause[] {
  const pauses: Pause[] = [];
  for (const entry of inOrder) {
    const last = pauses.at(-1);
    const isOpen = last?.until === null;
    const isClosing = entry.kind === 'move' && entry.to === 'closed';
    const goesOn = entry.kind === 'resume' || (entry.kind === 'move' && entry.from === 'closed');
    if (isOpen && (goesOn || isClosing)) last.until = entry.at;
    if (isClosing)
      pauses.push({ from: entry.at, until: null, reason: 'closed', evidence: '', saidBy: null });
    if (entry.kind === 'pause' && !isOpen) {
      const { at, reason, evidence, saidBy } = entry;
      pauses.push({ from: at, until: null, reason, evidence, saidBy });
    }
  }
  return pauses;
}

/** What was said last of the class, and of the causes of breaches. */
export function saidOf(entries: readonly CourseEntry[]): {
  override: { troubleClass: TroubleClass; reason: string } | null;
  causes: Partial<Record<PromiseKind, string>>;
} {
  let override: { troubleClass: TroubleClass; reason: string } | null = null;
  const causes: Partial<Record<PromiseKind, string>> = {};
  for (const entry of entries) {
    if (entry.kind === 'breach-cause') causes[entry.promise] = entry.cause;
    if (entry.kind !== 'trouble-class') continue;
    const { troubleClass, reason } = entry;
    override = troubleClass === null ? null : { troubleClass, reason };
  }
  return { override, causes };
}
