import { PAGE_FORMATS } from '../../parts/language.js';
import { local, shortDay } from '../../parts/time-words.js';
import type { LeftQuarterVisit, PlacedQuarterVisit, ReadQuarterPlan } from '../../parts/wire.js';
import { DAY_WORDS, QUARTER_WORDS } from '../words/words.js';
import type { QuarterPlace } from './quarter-want.js';

export type NameOf = (technicianId: string) => string;

/** What a plan comes to, and how near to the best it is. */
export function quarterInNumbers(
  { placed, left, cost, bound, isProven }: ReadQuarterPlan,
  madeAt: string,
  isFirst: boolean,
): string[] {
  const gap = PAGE_FORMATS.chance(cost === 0 ? 0 : (cost - bound) / cost);
  const weight = isProven ? DAY_WORDS.proven(cost) : DAY_WORDS.gap(cost, bound, gap);
  return [
    `${QUARTER_WORDS.placed(placed.length, left.length)} ${QUARTER_WORDS.made(local(madeAt))}`,
    isFirst && !isProven ? `${QUARTER_WORDS.isFirst} ${weight}` : weight,
    QUARTER_WORDS.weighs,
  ];
}

/** "Tue 3 Mar, Ilvo Marsh". */
export function placeInWords({ on, technicianId }: QuarterPlace, nameOf: NameOf): string {
  return `${shortDay(on)}, ${nameOf(technicianId)}`;
}

/** Why a visit lies where it lies, a sentence each. `from`: the first day of the plan. */
export function whyThereInWords(visit: PlacedQuarterVisit, from: string, nameOf: NameOf): string[] {
  const words = QUARTER_WORDS;
  const { ideal, on, idealExtraMinutes, instead } = visit;
  const best =
    ideal === on
      ? words.onBest
      : ideal < from
        ? words.bestGone(shortDay(ideal))
        : words.bestIs(shortDay(ideal));
  return [
    best,
    ...(idealExtraMinutes === null || ideal < from ? [] : [words.bestWeighs(idealExtraMinutes)]),
    instead === null
      ? words.nothingElse
      : words.nextBest(shortDay(instead.on), nameOf(instead.technicianId), instead.extraMinutes),
  ];
}

/** Sets of constraints, each as a line. */
export function conflictsInWords(conflicts: LeftQuarterVisit['conflicts']): string[] {
  return conflicts.map((set) => PAGE_FORMATS.and(set.map((one) => QUARTER_WORDS.constraint[one])));
}
