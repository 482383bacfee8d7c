import {
  type Assignment,
  bit,
  conditionOf,
  enumerate,
  ERRORS,
  type OracleExpectation,
  type OracleRequest,
  type OracleTrunk,
  oracleTrunks,
  OUTCOMES,
  type Setting,
  settings,
} from './enumeration.js';

// Adds up every assignment of what stays, every component and way in which one thing can come and go, and every set of
// sittings in which it was there. Shares no code with the locator.

export interface OracleSittings extends Omit<OracleRequest, 'observations' | 'unmentioned'> {
  observations: (NonNullable<OracleRequest['observations']>[number] & { sitting: number })[];
  unmentioned?: { reportRate: number; functions: string[]; sitting: number };
}

const PASSING: Record<string, number> = {
  parted: 15,
  'open-supply': bit('supply'),
  'open-return': bit('return'),
  'open-speech': bit('speech'),
  'open-select': bit('select'),
};

interface Passing {
  trunk: number;
  node: number;
  key: string;
  odds: number;
  cuts: number;
}

function evidence(
  request: OracleSittings,
  trunk: OracleTrunk,
  setting: Setting,
  now: Assignment,
  feedIn: (node: number, sitting: number) => number,
): number {
  let product = 1;
  trunk.nodes.forEach((node, n) => {
    if (node.kind === 'junction-box') return;
    const [mode] = trunk.stationModes[n]![now.stations[n]!]!;
    const condition = (name: string, sitting: number) =>
      conditionOf(name, setting.headEnd, mode, feedIn(n, sitting));
    const here = request.observations.filter((o) => o.trunk === trunk.id && o.node === node.id);
    for (const o of here) {
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
  return product;
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
  const list: Passing[] = trunks.flatMap((trunk, t) =>
    trunk.nodes.flatMap(({ id }, node) =>
      (['junctionOut', 'cable', 'junctionIn'] as const).flatMap((component) => {
        const table = expected.trunks[t]!.nodes.find((one) => one.id === id)![component];
        return Object.entries(PASSING).flatMap(([mode, cuts]) =>
          table[mode] === undefined
            ? []
            : [
                {
                  trunk: t,
                  node,
                  key: `${trunk.id} ${id} ${component} ${mode}`,
                  odds: 0.25 * table[mode],
                  cuts,
                },
              ],
        );
      }),
    ),
  );
  const quiet = trunks.map((trunk) =>
    all.map((setting) => {
      let sum = 0;
      enumerate(trunk, (now) => {
        sum += now.prior * evidence(request, trunk, setting, now, (n) => now.feeds[n]!);
      });
      return sum;
    }),
  );
  const site = (other?: { trunk: number; sums: number[] }) =>
    all.reduce((total, setting, s) => {
      const parts = quiet.map((sums, t) => (t === other?.trunk ? other.sums[s]! : sums[s]!));
      return total + parts.reduce((product, part) => product * part, setting.prior);
    }, 0);
  const masses: Record<string, number> = { nothing: site() };
  for (const { trunk: t, node, key, odds, cuts } of list) {
    const trunk = trunks[t]!;
    const below = behind(trunk, node);
    const sums = all.map((setting) => {
      let sum = 0;
      for (let set = 0; set < 2 ** sittings.length; set++) {
        const there = sittings.filter((_, i) => set & (1 << i));
        const chance = 0.4 ** there.length * 0.6 ** (sittings.length - there.length);
        enumerate(trunk, (now) => {
          const feedIn = (n: number, sitting: number) =>
            below.has(n) && there.includes(sitting) ? now.feeds[n]! & ~cuts : now.feeds[n]!;
          sum += chance * now.prior * evidence(request, trunk, setting, now, feedIn);
        });
      }
      return sum;
    });
    masses[key] = odds * site({ trunk: t, sums });
  }
  const total = Object.values(masses).reduce((sum, mass) => sum + mass, 0);
  const odds = list.reduce((sum, one) => sum + one.odds, 0);
  return {
    logEvidence: Math.log(total / (1 + odds)),
    chances: Object.fromEntries(Object.entries(masses).map(([key, mass]) => [key, mass / total])),
  };
}
