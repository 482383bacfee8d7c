import { exp } from '../../elementary/exp.js';
import { ln, log1p } from '../../elementary/ln.js';
import { CONFUSED_LIKELIHOOD } from '../../plan/error-rates.js';
import type { FunctionSet } from '../../plan/functions.js';
import { logAdd } from '../numbers/log-add.js';
import { contextMap } from './contexts.js';
import type { FeedClasses } from './feed-classes.js';
import type { StatementsOfOne } from './statements.js';
import type { System } from './system.js';
import { zeroTable } from '../numbers/zero-table.js';

/** Condition of a function at a station: 0 good, 1 weak, 2 dead (fault model, section 3). */
export function conditionOf(
  { reach, reachNeeded, weak }: FeedClasses,
  func: number,
  feed: number,
  disabled: FunctionSet,
): 0 | 1 | 2 {
  if (disabled & (1 << func) || (reach[feed] ?? 0) < (reachNeeded[func] ?? 0)) return 2;
  return weak[feed] ? 1 : 0;
}

/** The class of feed at a node in one sitting, given the class that arrives when nothing comes and goes. */
export type FeltFeed = (sitting: number, feed: number) => number;

const AS_IT_ARRIVES: FeltFeed = (_, feed) => feed;

/** Functions that something which comes and goes disables in one sitting. */
export type Silenced = (sitting: number) => FunctionSet;

const NOTHING_SILENCED: Silenced = () => 0;

/** P(what is known at one node | context, class of the station's mode, its feed). */
export interface NodeLikelihood {
  /** At (context * station classes + class) * feeds + feed. */
  readonly table: Float64Array;
  /**
   * Where very much was said, logarithms of what `table` must be multiplied by, at feed * contexts + context: the
   * likelihood itself would leave the range of doubles.
   */
  readonly logs: Float64Array | null;
}

/** What is known at one node, and of what it is a likelihood. `flags` are those open at the node. */
interface Known {
  readonly system: System;
  readonly statements: readonly StatementsOfOne[];
  readonly headEndDisables: readonly FunctionSet[];
  readonly flags: readonly number[];
  readonly felt: FeltFeed;
  readonly silenced: Silenced;
  /** By way of connecting the trunk, by feed: its class (StateSpace). */
  readonly classes: readonly Uint8Array[];
}

const feedCount = (classes: readonly Uint8Array[]) => classes[0]?.length ?? 0;

/** Of one informant who is not confused, given a condition of each function. */
type ValueOf = (ofOne: StatementsOfOne, conditionIs: (statement: number) => 0 | 1 | 2) => number;

const chanceOf: ValueOf = ({ items }, conditionIs) =>
  items.reduce((product, { likelihood }, i) => product * likelihood[conditionIs(i)], 1);

const logOf: ValueOf = ({ items }, conditionIs) =>
  items.reduce((log, { likelihood }, i) => log + ln(likelihood[conditionIs(i)]), 0);

/** By feed, the value of an informant; it depends on the functions it told about alone. */
function valueRows(
  ofOne: StatementsOfOne,
  { system: { feedClasses }, felt, silenced, classes }: Known,
  valueOf: ValueOf,
) {
  const { items } = ofOne;
  const told = items.reduce((set, { func }) => set | (1 << func), 0);
  const known: (Float64Array | undefined)[] = [];
  return (disabled: FunctionSet): Float64Array => {
    const found =
      known[disabled & told] ??
      Float64Array.from({ length: feedCount(classes) }, (_, feed) =>
        valueOf(ofOne, (i) => {
          const { func = 0, sitting = 0, way = 0 } = items[i] ?? {};
          const arrives = felt(sitting, classes[way]?.[feed] ?? 0);
          return conditionOf(feedClasses, func, arrives, disabled | silenced(sitting));
        }),
      );
    known[disabled & told] = found;
    return found;
  };
}

/** Calls `see` with the value of each informant for each entry of the table, and the chance that it is confused there. */
function eachEntry(
  known: Known,
  valueOf: ValueOf,
  see: (entry: number, clear: number, confused: number, ofOne: StatementsOfOne) => void,
): void {
  const { statements, headEndDisables, flags } = known;
  const { count: stationCount, disables } = known.system.stationClasses;
  const groups = headEndDisables.length;
  const contexts = groups << flags.length;
  const feeds = feedCount(known.classes);
  for (const ofOne of statements) {
    const bit = ofOne.flag < 0 ? 0 : 1 << flags.indexOf(ofOne.flag);
    const rows = valueRows(ofOne, known, valueOf);
    for (let context = 0; context < contexts; context++) {
      const headEnd = headEndDisables[context % groups] ?? 0;
      const confused = Math.floor(context / groups) & bit ? 1 : ofOne.confused;
      for (let k = 0; k < stationCount; k++) {
        const row = rows(headEnd | (disables[k] ?? 0));
        const at = (context * stationCount + k) * feeds;
        for (let feed = 0; feed < feeds; feed++) see(at + feed, row[feed] ?? 0, confused, ofOne);
      }
    }
  }
}

/** More than this, as a logarithm, is worked out without logarithms. */
const LEAST_LOG = -200;

/** log of the least that what was said can have, but for 0. */
function leastLog(statements: readonly StatementsOfOne[]): number {
  let log = 0;
  for (const { items } of statements)
    for (const { likelihood } of items)
      log += ln(Math.min(CONFUSED_LIKELIHOOD, ...likelihood.filter((chance) => chance > 0)));
  return log;
}

/**
 * @param possible classes of the station's mode that it can be in at all, as bits: the table is scaled to the largest of
 *   these
 */
export function nodeLikelihood(
  statements: readonly StatementsOfOne[],
  headEndDisables: readonly FunctionSet[],
  flags: readonly number[],
  { system, classes }: Pick<Known, 'system' | 'classes'>,
  {
    felt = AS_IT_ARRIVES,
    silenced = NOTHING_SILENCED,
    possible = ~0,
  }: { felt?: FeltFeed; silenced?: Silenced; possible?: number } = {},
): NodeLikelihood {
  const own = flags.filter((flag) => statements.some((ofOne) => ofOne.flag === flag));
  if (own.length < flags.length) {
    const given = { felt, silenced, possible };
    const few = nodeLikelihood(statements, headEndDisables, own, { system, classes }, given);
    const map = contextMap(headEndDisables.length, flags, own);
    return spreadOver(few, headEndDisables.length << own.length, map);
  }
  const known = { system, statements, headEndDisables, flags, felt, silenced, classes };
  const contexts = headEndDisables.length << flags.length;
  const stationCount = system.stationClasses.count;
  const table = zeroTable(contexts * stationCount * feedCount(classes));
  if (leastLog(statements) < LEAST_LOG) {
    eachEntry(known, logOf, (entry, clear, confused, { items }) => {
      const ifConfused = items.length * ln(CONFUSED_LIKELIHOOD);
      table[entry] =
        (table[entry] ?? 0) +
        (confused === 0 ? clear : logAdd(log1p(-confused) + clear, ln(confused) + ifConfused));
    });
    return scaled(table, { contexts, stationCount, feeds: feedCount(classes) }, possible);
  }
  table.fill(1);
  eachEntry(known, chanceOf, (entry, clear, confused, { ifConfused }) => {
    const likelihood = confused === 0 ? clear : (1 - confused) * clear + confused * ifConfused;
    table[entry] = (table[entry] ?? 0) * likelihood;
  });
  return { table, logs: null };
}

/** Over the flags, too, of those who told nothing here: it is the same whether they are confused or not. */
function spreadOver({ table, logs }: NodeLikelihood, few: number, map: Int32Array): NodeLikelihood {
  const row = table.length / few;
  const spread = new Float64Array(map.length * row);
  map.forEach((from, to) => spread.set(table.subarray(from * row, (from + 1) * row), to * row));
  if (logs === null) return { table: spread, logs };
  const feeds = logs.length / few;
  const spreadLogs = new Float64Array(feeds * map.length);
  for (let feed = 0; feed < feeds; feed++)
    map.forEach((from, to) => (spreadLogs[feed * map.length + to] = logs[feed * few + from] ?? 0));
  return { table: spread, logs: spreadLogs };
}

/** From logarithms: the largest possible entry of each context and feed becomes 1. */
function scaled(
  table: Float64Array,
  { contexts, stationCount, feeds }: { contexts: number; stationCount: number; feeds: number },
  possible: number,
): NodeLikelihood {
  const logs = zeroTable(feeds * contexts);
  for (let context = 0; context < contexts; context++)
    for (let feed = 0; feed < feeds; feed++) {
      const at = context * stationCount * feeds + feed;
      let most = -Infinity;
      for (let k = 0; k < stationCount; k++)
        if (possible & (1 << k)) most = Math.max(most, table[at + k * feeds] ?? -Infinity);
      const log = most === -Infinity ? 0 : most;
      logs[feed * contexts + context] = log;
      for (let k = 0; k < stationCount; k++) {
        const entry = at + k * feeds;
        table[entry] = possible & (1 << k) ? exp((table[entry] ?? 0) - log) : 0;
      }
    }
  return { table, logs };
}
