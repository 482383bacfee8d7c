import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import type { FunctionSet } from '../../plan/functions.js';
import { conditionOf } from '../sweep/node-likelihood.js';
import type { StationChances } from '../sweep/station-classes.js';
import { FEED_CLASSES, FEEDS, PLAN, STATION_CLASS_COUNT, STATIONS } from './default-system.js';
import type { StatementsOfOne } from '../sweep/statements.js';

/** Of tables by head-end group, class of station modes and class of feed. */
export function termAt(group: number, stationClass: number, feed: number): number {
  return (group * STATION_CLASS_COUNT + stationClass) * FEED_CLASSES + feed;
}

/** Logarithms of one node's share of a world's weight; tables as `termAt` lays them out. */
export interface NodeTerms {
  /** What was said here by whom nobody else's words depend on. */
  readonly told: Float64Array;
  /** What was said here by informants who told about other nodes too, if they were not confused. */
  readonly flagged: readonly { readonly flag: number; readonly log: Float64Array }[];
  /** That nobody said more. */
  readonly silence: Float64Array;
  /** 1 where the class of modes makes a difference to something that was said here. */
  readonly differs: Uint8Array;
  /** At group * FEED_CLASSES + feed: the station is ok, or in a mode that makes no difference; and with its short. */
  readonly ordinary: Float64Array;
  readonly ordinaryOrShort: Float64Array;
}

function logOfOne(ofOne: StatementsOfOne, feed: number, disabled: FunctionSet): number {
  let product = 1;
  for (const { func, likelihood } of ofOne.items)
    product *= likelihood[conditionOf(FEEDS, func, feed, disabled)];
  const { confused, ifConfused } = ofOne;
  return ln(confused === 0 ? product : (1 - confused) * product + confused * ifConfused);
}

/** Sums the informants' logarithms over every group, class and feed. */
function logTable(
  statements: readonly StatementsOfOne[],
  disables: readonly FunctionSet[],
): Float64Array {
  const table = new Float64Array(disables.length * STATION_CLASS_COUNT * FEED_CLASSES);
  if (statements.length === 0) return table;
  disables.forEach((headEnd, group) =>
    STATIONS.disables.forEach((station, stationClass) => {
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        let sum = 0;
        for (const ofOne of statements) sum += logOfOne(ofOne, feed, headEnd | station);
        table[termAt(group, stationClass, feed)] = sum;
      }
    }),
  );
  return table;
}

function differences(said: FunctionSet, disables: readonly FunctionSet[]): Uint8Array {
  const table = new Uint8Array(disables.length * STATION_CLASS_COUNT * FEED_CLASSES);
  disables.forEach((headEnd, group) =>
    STATIONS.disables.forEach((station, stationClass) => {
      for (let feed = 0; feed < FEED_CLASSES; feed++)
        table[termAt(group, stationClass, feed)] = PLAN.functions.some(
          (_, func) =>
            said & (1 << func) &&
            conditionOf(FEEDS, func, feed, headEnd | station) !==
              conditionOf(FEEDS, func, feed, headEnd),
        )
          ? 1
          : 0;
    }),
  );
  return table;
}

/**
 * The terms of one node. `said` are the functions that somebody spoke of here, by `spoken`; `silent` is what follows from
 * nobody's speaking of others. `station` is null at a junction box.
 */
export function nodeTerms(
  statements: {
    said: FunctionSet;
    spoken: readonly StatementsOfOne[];
    silent: readonly StatementsOfOne[];
  },
  station: StationChances | null,
  disables: readonly FunctionSet[],
): NodeTerms {
  const { said, spoken, silent } = statements;
  const silence = logTable(silent, disables);
  const differs = differences(said, disables);
  const ordinary = new Float64Array(disables.length * FEED_CLASSES);
  const ordinaryOrShort = new Float64Array(disables.length * FEED_CLASSES);
  if (station)
    for (let group = 0; group < disables.length; group++)
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        let sum = 0;
        station.classes.forEach((chance, stationClass) => {
          const at = termAt(group, stationClass, feed);
          if (!differs[at]) sum += chance * exp(silence[at] ?? 0);
        });
        const short = station.short * exp(silence[termAt(group, 0, feed)] ?? 0);
        ordinary[group * FEED_CLASSES + feed] = ln(sum);
        ordinaryOrShort[group * FEED_CLASSES + feed] = ln(sum + short);
      }
  return {
    told: logTable(
      spoken.filter(({ flag }) => flag < 0),
      disables,
    ),
    flagged: spoken
      .filter(({ flag }) => flag >= 0)
      .map((ofOne) => ({ flag: ofOne.flag, log: logTable([ofOne], disables) })),
    silence,
    differs,
    ordinary,
    ordinaryOrShort,
  };
}
