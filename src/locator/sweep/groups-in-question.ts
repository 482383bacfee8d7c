import { ln, log1p } from '../../elementary/ln.js';
import type { ExpectedFaults, NodeExpectation } from '../../plan/expected-faults.js';
import type { SpanMode, StationMode } from '../../plan/modes.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import type { RateTables } from '../../plan/rates.js';
import { type HeadEndGroups, onlyGroups } from './head-end-groups.js';
import { NEGLIGIBLE } from './live-contexts.js';
import type { Looks } from './looks.js';
import type { TrunkTree } from './trunk-tree.js';
import type { StatementsOfOne, SiteStatements } from './statements.js';
import type { Zones } from './zones.js';
import { zeroTable } from '../numbers/zero-table.js';

const GOOD = 0;
const DEAD = 2;

/** log P(what was told | condition of every function told about, nobody confused, and that nobody is). */
function logTold(
  statements: readonly StatementsOfOne[],
  condition: typeof GOOD | typeof DEAD,
): number {
  let log = 0;
  for (const { items, confused } of statements) {
    log += log1p(-confused);
    // What came back while a cable was off goes with this too, in one way or another.
    for (const { likelihood, way } of items)
      log += ln(way === 0 ? likelihood[condition] : Math.min(...likelihood));
  }
  return log;
}

/** How many faults of all modes, or of one, are to be expected of one component. */
interface Expected {
  junction: (n: number, mode?: SpanMode) => number;
  cable: (n: number, mode?: SpanMode) => number;
  station: (n: number, mode?: StationMode) => number;
}

function sumOf<Mode extends string>(
  table: Readonly<Partial<Record<Mode, number>>>,
  mode?: Mode,
): number {
  if (mode !== undefined) return table[mode] ?? 0;
  return Object.values<number | undefined>(table).reduce<number>((sum, own) => sum + (own ?? 0), 0);
}

function expectedOf(
  tree: TrunkTree,
  rates: RateTables,
  own: ReadonlyMap<string, NodeExpectation>,
): Expected {
  const of = (n: number) => own.get(tree.nodeIds[n] ?? '');
  const years = (n: number) => tree.years[n] ?? 0;
  return {
    junction: (n, mode) => {
      const node = of(n);
      return node
        ? sumOf(node.junctionOut, mode) + sumOf(node.junctionIn, mode)
        : 2 * years(n) * sumOf(rates.junction, mode);
    },
    cable: (n, mode) => {
      const node = of(n);
      const metres = tree.cableMetres[n] ?? 0;
      return node ? sumOf(node.cable, mode) : metres * years(n) * sumOf(rates.cablePerMetre, mode);
    },
    station: (n, mode) => {
      const node = of(n);
      return node ? sumOf(node.station, mode) : years(n) * sumOf(rates.station, mode);
    },
  };
}

/**
 * log of the likelier of two ways in which a trunk's evidence may have come about, its port good: nothing is faulty that
 * matters, or one span is parted besides. P(mode) = (1 - exp(-Λ)) h / Λ is at least h exp(-Λ).
 */
function logOneWay(
  { stationShort, spanModes, plan }: PlanTables,
  tree: TrunkTree,
  statements: readonly (readonly StatementsOfOne[])[],
  expected: Expected,
): number {
  const lost = zeroTable(tree.count);
  const parting = spanModes.find((mode) => 'parts' in (plan.span[mode] ?? {}));
  let good = 0;
  let cut = 0;
  for (let n = tree.count - 1; n >= 0; n--) {
    const heard = statements[n] ?? [];
    const ifGood = logTold(heard, GOOD);
    // Of a station that nothing was told of only the short matters.
    good += ifGood - expected.junction(n) - expected.cable(n);
    if (tree.isStation[n] && heard.length > 0) good -= expected.station(n);
    else if (tree.isStation[n] && stationShort) good -= expected.station(n, stationShort);
    lost[n] = (lost[n] ?? 0) + logTold(heard, DEAD) - ifGood;
    const parted = parting ? expected.junction(n, parting) + expected.cable(n, parting) : 0;
    cut = Math.max(cut, ln(parted) + (lost[n] ?? 0));
    const above = tree.parent[n] ?? -1;
    if (above >= 0) lost[above] = (lost[above] ?? 0) + (lost[n] ?? 0);
  }
  return good + cut;
}

/** log of the most that any condition of the functions that a group leaves working makes of what was told. */
function logMost({ headEnd, statements, zones }: BeforeSweeps, group: number): number {
  let log = 0;
  statements.at.forEach((nodes, t) =>
    nodes.forEach((heard, n) => {
      const disabled = headEnd.disables[zones.of[t]?.[n] ?? 0]?.[group] ?? 0;
      for (const ofOne of heard) log += logMostOf(ofOne, disabled);
    }),
  );
  return log;
}

function logMostOf(
  { items, confused, ifConfused, flag }: StatementsOfOne,
  disabled: number,
): number {
  let most = 1;
  for (const { func, likelihood } of items)
    most *= disabled & (1 << func) ? likelihood[DEAD] : Math.max(...likelihood);
  return ln(confused > 0 || flag >= 0 ? Math.max(most, ifConfused) : most);
}

/** What there is of a site before its sweeps: all but its readings. */
export interface BeforeSweeps {
  readonly plan: PlanTables;
  readonly headEnd: HeadEndGroups;
  readonly trees: readonly TrunkTree[];
  readonly zones: Zones;
  readonly statements: SiteStatements;
  readonly looks: Looks;
  readonly rates: RateTables;
  readonly years: number;
  readonly expected?: ExpectedFaults;
}

/** log of what P(evidence) is at least: that of one way in which it may have come about. */
export function logLeastEvidence(site: BeforeSweeps): number {
  const { plan, headEnd, trees, statements, rates, years, expected } = site;
  let least = ln(headEnd.chance[headEnd.ofMode[0] ?? 0] ?? 0);
  for (const { confused } of statements.flags) least += log1p(-confused);
  trees.forEach((tree, t) => {
    const trunk = expected?.trunks.find(({ id }) => id === tree.id);
    const own = new Map(trunk?.nodes.map((node) => [node.id, node]));
    least += logOneWay(plan, tree, statements.at[t] ?? [], expectedOf(tree, rates, own));
    least -= trunk ? sumOf(trunk.port) : years * sumOf(rates.port);
  });
  return least - site.looks.logSpreadOfAll();
}

/**
 * The head-end's groups without those that the evidence rules out beyond all digits: the most that such a group can have
 * is nothing beside the least that the evidence has. Sixty observations leave four groups of eight, and the sweeps with
 * half the work.
 */
export function groupsInQuestion(site: BeforeSweeps): HeadEndGroups {
  const { headEnd } = site;
  const least = logLeastEvidence(site) + ln(NEGLIGIBLE);
  return onlyGroups(headEnd, (group) => {
    const prior = ln(headEnd.chance[group] ?? 0);
    return !(prior + logMost(site, group) < least);
  });
}
