import { type Setting, settings } from './oracle/evidence.js';
import type { OracleExpectation, OracleRequest } from './oracle/request.js';
import { bit, conditionOf, ERRORS, OUTCOMES } from './oracle/tables.js';
import { type Assignment, enumerate, type OracleTrunk, oracleTrunks } from './oracle/trunks.js';

// Adds up every assignment of what stays, every component and way in which one thing can come and go, and every set of
// sittings in which it was there. Shares no code with the locator.

export interface OracleSittings extends Omit<OracleRequest, 'observations' | 'unmentioned'> {
  observations: (NonNullable<OracleRequest['observations']>[number] & { sitting: number })[];
  unmentioned?: { reportRate: number; functions: string[]; sitting: number };
  begunBy?: 'complaint' | 'round';
}

const PASSING: Record<string, number> = {
  parted: 15,
  'open-supply': bit('supply'),
  'open-return': bit('return'),
  'open-speech': bit('speech'),
  'open-select': bit('select'),
};

/** -1 for a trunk: all; for a node: all of the trunk. */
interface Passing {
  trunk: number;
  node: number;
  key: string;
  odds: number;
  /** Cores that it takes, of a span; and of another part whether it silences a function. */
  cuts: number;
  silences: (name: string) => boolean;
}

/** Of assignments that differ in nothing that is told of: their stations' modes and feeds, and their priors added up. */
type Alike = Pick<Assignment, 'stations' | 'feeds' | 'prior'>;

function alikeOf(trunk: OracleTrunk): Alike[] {
  const found = new Map<string, Alike>();
  enumerate(trunk, ({ stations, feeds, prior }) => {
    const key = String.fromCharCode(...stations, ...feeds);
    const one = found.get(key);
    if (one) one.prior += prior;
    else found.set(key, { stations: stations.slice(), feeds: feeds.slice(), prior });
  });
  return [...found.values()];
}

function evidence(
  request: OracleSittings,
  trunk: OracleTrunk,
  setting: Setting,
  now: Alike,
  feedIn: (node: number, sitting: number) => number,
  silenced: (node: number, sitting: number, name: string) => boolean = () => false,
): { all: number; quiet: number } {
  let product = 1;
  let isQuiet = 1;
  trunk.nodes.forEach((node, n) => {
    if (node.kind === 'junction-box') return;
    const [mode] = trunk.stationModes[n]![now.stations[n]!]!;
    const condition = (name: string, sitting: number) =>
      silenced(n, sitting, name)
        ? 'dead'
        : conditionOf(name, setting.headEnd, mode, feedIn(n, sitting));
    const here = request.observations.filter((o) => o.trunk === trunk.id && o.node === node.id);
    for (const o of here) {
      if (o.outcome !== 'works' && condition(o.function, o.sitting) !== 'good') isQuiet = 0;
      const { id, kind } = o.informant ?? { kind: 'office' };
      product *=
        id !== undefined && setting.confused.has(id)
          ? 1 / 3
          : ERRORS[kind]![condition(o.function, o.sitting)]![OUTCOMES.indexOf(o.outcome)]!;
    }
    const { functions, reportRate, sitting } = request.unmentioned ?? {
      functions: [],
      reportRate: 0,
      sitting: 0,
    };
    for (const name of functions)
      if (!here.some((o) => o.function === name))
        product *= { good: 1, weak: 1 - reportRate / 2, dead: 1 - reportRate }[
          condition(name, sitting)
        ];
  });
  return { all: product, quiet: product * isQuiet };
}

function behind(trunk: OracleTrunk, top: number): Set<number> {
  const all = new Set([top]);
  for (const found of all)
    trunk.feeder.forEach((feeder, n) => {
      if (feeder === found) all.add(n);
    });
  return all;
}

/** The chances by "trunk node component mode", and of "nothing"; and ln P(evidence). */
export function enumerateIntermittent(
  request: OracleSittings,
  expected: OracleExpectation,
): { logEvidence: number; chances: Record<string, number> } {
  const all = settings(request, expected);
  const trunks = oracleTrunks(request, expected).map((trunk) => ({ ...trunk, losesPower: false }));
  const sittings = [...new Set(request.observations.map(({ sitting }) => sitting))];
  const nothing = { cuts: 0, silences: () => false };
  const spans: Passing[] = trunks.flatMap((trunk, t) =>
    trunk.nodes.flatMap(({ id }, node) =>
      (['junctionOut', 'cable', 'junctionIn'] as const).flatMap((component) => {
        const table = expected.trunks[t]!.nodes.find((one) => one.id === id)![component];
        return Object.entries(PASSING).flatMap(([mode, cuts]) => {
          const key = `${trunk.id} ${id} ${component} ${mode}`;
          const at = { trunk: t, node, key, ...nothing, cuts };
          return table[mode] === undefined ? [] : [{ ...at, odds: 0.25 * table[mode] }];
        });
      }),
    ),
  );
  const isDead = (headEnd: string, station: string) => (name: string) =>
    conditionOf(name, headEnd, station, 15) === 'dead';
  const part = (trunk: number, node: number, key: string, rate: number, own: Passing['silences']) =>
    ({ trunk, node, key, odds: 0.25 * rate, cuts: 0, silences: own }) satisfies Passing;
  const list: Passing[] = [
    ...spans,
    ...Object.entries(expected.headEnd).map(([mode, rate]) =>
      part(-1, -1, `head-end ${mode}`, rate, isDead(mode, 'ok')),
    ),
    ...trunks.flatMap(({ id, nodes }, t) => [
      ...Object.entries(expected.trunks[t]!.port).map(([mode, rate]) =>
        part(t, -1, `port ${id} ${mode}`, rate, () => true),
      ),
      ...nodes.flatMap((node, n) =>
        node.kind === 'junction-box'
          ? []
          : Object.entries(expected.trunks[t]!.nodes.find((one) => one.id === node.id)!.station)
              .filter(([mode]) => mode !== 'short-supply')
              .map(([mode, rate]) =>
                part(t, n, `station ${id} ${node.id} ${mode}`, rate, isDead('ok', mode)),
              ),
      ),
    ]),
  ];
  const kappa = request.begunBy === 'round' ? 1 : 0.02;
  const alike = trunks.map(alikeOf);
  /** Of one trunk in one setting, all worlds and the quiet ones, with something there in some sittings. */
  const sumOf = (t: number, setting: Setting, passing: Passing | null, there: number[]) => {
    const trunk = trunks[t]!;
    const below = passing && passing.cuts > 0 ? behind(trunk, passing.node) : new Set<number>();
    const sums = { all: 0, quiet: 0 };
    for (const now of alike[t]!) {
      const feedIn = (n: number, sitting: number) =>
        below.has(n) && there.includes(sitting)
          ? now.feeds[n]! & ~(passing?.cuts ?? 0)
          : now.feeds[n]!;
      const silenced = (n: number, sitting: number, name: string) =>
        passing !== null &&
        there.includes(sitting) &&
        (passing.node < 0 || passing.node === n) &&
        passing.silences(name);
      const told = evidence(request, trunk, setting, now, feedIn, silenced);
      sums.all += now.prior * told.all;
      sums.quiet += now.prior * told.quiet;
    }
    return sums;
  };
  const steady = trunks.map((_, t) => all.map((setting) => sumOf(t, setting, null, [])));
  const massOf = (passing: Passing | null, there: number[]) =>
    all.reduce((total, setting, s) => {
      let [whole, quiet] = [setting.prior, setting.prior];
      trunks.forEach((_, t) => {
        const isHere = passing !== null && (passing.trunk < 0 || passing.trunk === t);
        const sums =
          isHere && there.length > 0 ? sumOf(t, setting, passing, there) : steady[t]![s]!;
        whole *= sums.all;
        quiet *= sums.quiet;
      });
      return total + whole - (1 - kappa) * quiet;
    }, 0);
  const masses: Record<string, number> = { nothing: massOf(null, []) };
  for (const passing of list) {
    let sum = 0;
    for (let set = 0; set < 2 ** sittings.length; set++) {
      const there = sittings.filter((_, i) => set & (1 << i));
      const chance = 0.4 ** there.length * 0.6 ** (sittings.length - there.length);
      sum += chance * massOf(passing, there);
    }
    masses[passing.key] = passing.odds * sum;
  }
  const total = Object.values(masses).reduce((sum, mass) => sum + mass, 0);
  const odds = list.reduce((sum, one) => sum + one.odds, 0);
  return {
    logEvidence: Math.log(total / (1 + odds)),
    chances: Object.fromEntries(Object.entries(masses).map(([key, mass]) => [key, mass / total])),
  };
}
