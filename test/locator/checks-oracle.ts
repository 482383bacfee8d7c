import { likelihoodOf, settings, trunkEvidence } from './oracle/evidence.js';
import type { OracleRequest } from './oracle/request.js';
import { downThrough } from './oracle/span-kinds.js';
import { bit, conditionOf } from './oracle/tables.js';
import { type Assignment, enumerate, type OracleTrunk, oracleTrunks } from './oracle/trunks.js';

// What checks tell, from sums over every assignment: I = H(outcome) - E[H(outcome | truth)], written as it is defined.

/** One assignment of a site of one trunk, as a check sees it. */
export interface World {
  headEnd: string;
  trunk: OracleTrunk;
  assignment: Assignment;
}

/** P(truth | evidence) for whatever a check is about; `truthOf` may share a world out. Sites of one trunk. */
export function truths(
  request: OracleRequest,
  truthOf: (world: World) => string | [truth: string, share: number][],
): Map<string, number> {
  const all = settings(request);
  const [trunk] = oracleTrunks(request);
  const evidence = trunkEvidence(request, trunk!, all);
  const masses = new Map<string, number>();
  let total = 0;
  enumerate(trunk!, (assignment) => {
    all.forEach(({ headEnd, prior }, s) => {
      const mass = prior * assignment.prior * likelihoodOf(evidence, s, assignment);
      if (mass === 0) return;
      total += mass;
      const truth = truthOf({ headEnd, trunk: trunk!, assignment });
      for (const [name, share] of typeof truth === 'string' ? [[truth, 1] as const] : truth)
        masses.set(name, (masses.get(name) ?? 0) + mass * share);
    });
  });
  return new Map([...masses].map(([name, mass]) => [name, mass / total]));
}

const entropy = (list: number[]) =>
  list.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);

/** I of section 5, from its definition. */
export function oracleBits(
  chances: Map<string, number>,
  outcomesOf: (truth: string) => number[],
): number {
  const rows = [...chances].map(([truth, chance]) => ({ chance, row: outcomesOf(truth) }));
  const outcomes = rows[0]!.row.map((_, o) =>
    rows.reduce((sum, { chance, row }) => sum + chance * row[o]!, 0),
  );
  return entropy(outcomes) - rows.reduce((sum, { chance, row }) => sum + chance * entropy(row), 0);
}

const at = ({ trunk }: World, node: string) => trunk.nodes.findIndex(({ id }) => id === node);

function stationMode(world: World, node: string): string {
  const n = at(world, node);
  return world.trunk.stationModes[n]![world.assignment.stations[n]!]![0];
}

export function conditionIn(world: World, node: string, name: string): string {
  const feed = world.assignment.feeds[at(world, node)]!;
  return conditionOf(name, world.headEnd, stationMode(world, node), feed);
}

export function conditionWithVolumeUp(world: World, node: string, name: string): string {
  const feed = world.assignment.feeds[at(world, node)]!;
  const mode = stationMode(world, node);
  return conditionOf(name, world.headEnd, mode === 'volume-down' ? 'ok' : mode, feed);
}

export function supplyIn(world: World, node: string): string {
  const feed = world.assignment.feeds[at(world, node)]!;
  if (!(feed & bit('supply')) || !(feed & bit('return'))) return 'dead';
  return feed & 16 ? 'weak' : 'full';
}

/** Whether every component between two nodes carries all cores. */
export function continuityOf(world: World, from: string | null, to: string): string {
  const { trunk, assignment } = world;
  for (let n = at(world, to); n >= 0 && trunk.nodes[n]!.id !== from; n = trunk.feeder[n]!) {
    const kind = trunk.spanKinds[n]![assignment.kinds[n]!]!;
    if ((kind.down[15]! & 15) !== 15) return 'open';
  }
  return 'through';
}

export function junctionIn(
  { trunk, assignment }: World,
  to: string,
  component: string,
): [string, number][] {
  const n = trunk.nodes.findIndex(({ id }) => id === to);
  const kind = trunk.spanKinds[n]![assignment.kinds[n]!]!;
  const ok = (kind.modes[component]!.ok ?? 0) / kind.chance;
  return [
    ['sound', ok],
    ['faulty', 1 - ok],
  ];
}

/** The function at a node with everything past it disconnected there: views and feeds worked out again. */
export function conditionIfIsolated(world: World, node: string, name: string): string {
  const { trunk, assignment } = world;
  const cut = at(world, node);
  const viewAt = (n: number): number => {
    let view = stationMode(world, trunk.nodes[n]!.id) === 'short-supply' ? bit('supply') : 0;
    if (n !== cut) view |= viewBelow(n);
    return view;
  };
  const viewBelow = (n: number): number =>
    trunk.feeder.reduce((view, feeder, child) => {
      if (feeder !== n) return view;
      const below = viewAt(child);
      const kind = trunk.spanKinds[child]![assignment.kinds[child]!]!;
      return view | kind.up[(below & 1) | ((below & 12) >> 1)]!;
    }, 0);
  const start = (assignment.port === 'ok' ? 15 : downThrough('open-supply', 15)) & ~viewBelow(-1);
  const feedAt = (n: number): number =>
    n < 0 ? start : trunk.spanKinds[n]![assignment.kinds[n]!]!.down[feedAt(trunk.feeder[n]!)]!;
  return conditionOf(name, world.headEnd, stationMode(world, node), feedAt(cut));
}
