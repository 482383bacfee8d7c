import type { InformantKind } from '../plan/error-rates.js';
import { informantOf } from '../reports/observation.js';
import { stands } from '../reports/withdrawal.js';
import type { DrawnRecord } from '../sites/drawing.js';
import type { LeftOut } from '../words/index.js';
import { saysNothingOn, type SeenPart } from './look.js';

/** A look about a ticket, as the rules of this folder read it. */
export interface TakenLook extends SeenPart {
  id: string;
  saidBy: string;
  saidByKind: InformantKind;
  lookedAt: Date;
  period: number;
  /** The log entry that withdrew it; null where nobody did. */
  withdrawalId: string | null;
}

/** A look that a location does not go by, and why. */
export interface LeftOutLook {
  id: string;
  why: LeftOut;
}

/** What a location is about: which period between mendings, after which closing, on which drawing. */
export interface LookedFor {
  period: number;
  closedAt: Date | null;
  drawing: DrawnRecord;
  /** The groups that are weighed. */
  groups: ReadonlySet<string>;
  /** So many at most: the newest. */
  most: number;
}

/**
 * Of a ticket's looks those that say something about what is to be explained: not withdrawn, of its period, after the last
 * closing, of a part that is on its drawing; of what one person looked at several times the last. Oldest first.
 */
export function choosableLooks(
  taken: readonly TakenLook[],
  about: LookedFor,
): { chosen: TakenLook[]; leftOut: LeftOutLook[] } {
  const leftOut: LeftOutLook[] = [];
  const last = new Map<string, TakenLook>();
  for (const one of [...taken].sort(byTime)) {
    const why = whyNot(one, about);
    if (why !== null) {
      leftOut.push({ id: one.id, why });
      continue;
    }
    const key = JSON.stringify([informantOf(one), one.place, one.part, one.group]);
    const earlier = last.get(key);
    if (earlier !== undefined) leftOut.push({ id: earlier.id, why: { kind: 'looked-again' } });
    last.delete(key);
    last.set(key, one);
  }
  const all = [...last.values()];
  const beyond = all.slice(0, Math.max(0, all.length - about.most));
  const why = { kind: 'older', most: about.most } as const;
  return {
    chosen: all.slice(beyond.length),
    leftOut: [...leftOut, ...beyond.map(({ id }) => ({ id, why }))],
  };
}

function whyNot(look: TakenLook, about: LookedFor): LeftOut | null {
  const { period, closedAt, drawing, groups } = about;
  if (!stands(look)) return { kind: 'withdrawn' };
  if (look.period < period) return { kind: 'before-mending' };
  if (look.period > period) return { kind: 'after-mending' };
  if (closedAt !== null && look.lookedAt <= closedAt) return { kind: 'before-closing' };
  return saysNothingOn(look, drawing, groups);
}

/** Oldest first; what was seen at once, in an order that is always the same. */
function byTime(a: TakenLook, b: TakenLook): number {
  return a.lookedAt.getTime() - b.lookedAt.getTime() || (a.id < b.id ? -1 : 1);
}
