import type { ExpectedFaults, NodeExpectation } from '../../plan/expected-faults.js';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import type { Plan } from '../../plan/plan.js';
import { type PlanTables, tablesOf } from '../../plan/plan-tables.js';
import type { RequestTrunk } from '../request/locate-request.js';
import { type TrunkTree, trunkTree } from '../sweep/trunk-tree.js';
import type { Component } from './component.js';
import {
  daysSinceProven,
  headEndProof,
  neverProven,
  type Proof,
  type TrunkProof,
  trunkProof,
} from './last-proven.js';
import { raisedDays } from './raised-days.js';

const DAYS_PER_YEAR = 365.25;

type Table = Readonly<Record<string, number>>;

/** What a firm's history says of each component of a site. */
export interface SiteHistory {
  proofs: readonly Proof[];
  /** Days since it was put in or mended: however little was proven, no mode is older. */
  newDaysAgo(component: Component): number;
  /** Days since somebody last had hands on it; undefined where nobody is known to have. */
  touchedDaysAgo(component: Component): number | undefined;
  /** Faults per year by mode; cable per metre. */
  ratesPerYear(component: Component): Table;
}

/**
 * The faults to be expected of every component since each of its modes was last proven absent (fault model, section 7).
 * Linear in the nodes and the proofs.
 */
export function expectFaults(
  trunks: readonly RequestTrunk[],
  history: SiteHistory,
  ofPlan: Plan = DEFAULT_PLAN,
): ExpectedFaults {
  const plan = tablesOf(ofPlan);
  const proven = trunks.map((trunk) => {
    const tree = trunkTree(plan, trunk, 0);
    return { tree, proof: trunkProof(plan, tree, history.proofs) };
  });
  const headEnd = headEndProof(
    plan,
    proven.map(({ proof }) => proof),
  );
  return {
    headEnd: {
      ...expectation(
        history,
        { component: 'head-end' },
        daysSinceProven(plan, plan.headEndModes, headEnd, (modes) => modes.headEnd),
      ),
      ...groupExpectations(plan, history, proven),
    },
    trunks: proven.map(({ tree, proof }) => ({
      id: tree.id,
      port: expectation(
        history,
        { component: 'port', trunk: tree.id },
        daysSinceProven(plan, plan.portModes, proof.port, (modes) => modes.port),
      ),
      nodes: tree.nodeIds.map((_, n) => nodeExpectation(plan, history, tree, n, proof)),
    })),
  };
}

/** Of each group's modes, by name: what is heard at one of its stations proves that the group is on for that. */
function groupExpectations(
  plan: PlanTables,
  history: SiteHistory,
  proven: readonly { tree: TrunkTree; proof: TrunkProof }[],
): Record<string, number> {
  const heard = new Map<string, Float64Array>();
  for (const { tree, proof } of proven)
    tree.nodes.forEach(({ groups = [] }, n) => {
      for (const group of groups) {
        const days = heard.get(group) ?? neverProven(plan);
        heard.set(group, days);
        proof.at[n]?.forEach((ago, f) => (days[f] = Math.min(days[f] ?? ago, ago)));
      }
    });
  const days = [...heard].flatMap(([group, last]) =>
    plan.groupModes.map((kind): [string, number] => {
      const proving = last.filter((_, f) => plan.headEndDisables[kind] & (1 << f));
      return [`${kind}:${group}`, Math.min(...proving)];
    }),
  );
  const rates = history.ratesPerYear({ component: 'head-end' });
  const byGroup = days.flatMap(([name]): [string, number][] => {
    const rate = rates[name.slice(0, name.indexOf(':'))];
    return rate === undefined ? [] : [[name, rate]];
  });
  const ofGroups: SiteHistory = {
    proofs: history.proofs,
    newDaysAgo: (component) => history.newDaysAgo(component),
    touchedDaysAgo: (component) => history.touchedDaysAgo(component),
    ratesPerYear: () => Object.fromEntries(byGroup),
  };
  return expectation(ofGroups, { component: 'head-end' }, Object.fromEntries(days));
}

function nodeExpectation(
  plan: PlanTables,
  history: SiteHistory,
  tree: TrunkTree,
  n: number,
  { at, through }: ReturnType<typeof trunkProof>,
): NodeExpectation {
  const node = tree.nodeIds[n] ?? '';
  const { stationShort: short } = plan;
  const behind = through[n] ?? new Float64Array();
  const span = daysSinceProven(plan, plan.spanModes, behind, (modes) => modes.span);
  const here = daysSinceProven(plan, plan.stationModes, at[n] ?? behind, (modes) => modes.station);
  const onPath = daysSinceProven(plan, plan.stationModes, behind, (modes) => modes.stationOnPath);
  const of = (component: 'junction-out' | 'cable' | 'junction-in' | 'station', days: Table) =>
    expectation(history, { component, trunk: tree.id, node }, days, tree.cableMetres[n]);
  return {
    id: node,
    junctionOut: of('junction-out', span),
    cable: of('cable', span),
    junctionIn: of('junction-in', span),
    station: of('station', { ...here, ...(short && { [short]: onPath[short] }) }),
  };
}

function expectation(
  history: SiteHistory,
  component: Component,
  daysSince: Table,
  cableMetres = 1,
): Record<string, number> {
  const newDaysAgo = history.newDaysAgo(component);
  const touched = history.touchedDaysAgo(component);
  const metres = component.component === 'cable' ? cableMetres : 1;
  const expected: Record<string, number> = {};
  for (const [mode, rate] of Object.entries(history.ratesPerYear(component))) {
    const days = Math.min(newDaysAgo, daysSince[mode] ?? Infinity);
    expected[mode] = rate * metres * (raisedDays(days, touched) / DAYS_PER_YEAR);
  }
  return expected;
}
