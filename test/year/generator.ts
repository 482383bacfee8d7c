import {
  DEFAULT_ERROR_RATES,
  DEFAULT_RATES,
  type FunctionName,
  type InformantKind,
  type Outcome,
  OUTCOMES,
  type RateTables,
} from '#app/locator/index.js';
import type { WorldFault } from '#app/locator/worlds/index.js';
import { GROUP_MODES } from '#app/plan/modes.js';
import type { AsBuilt } from '#app/sites/as-built.js';
import type { Random } from '../accuracy/site.js';

/** How a simulated year is made. */
export interface Generator {
  name: string;
  /** What breaks, how often, and who errs how often is as the locator and the walk take it. */
  isModel: boolean;
  rates: RateTables;
  /** So many times as often as the model says people err, and do not see what they look at. */
  errors: number;
  /** Chance in a month that work by others damages several joints in a row. */
  renovation: number;
  /** Chance that a month in which all is well has a call. */
  aboutNothing: number;
  /** Chance that a site's drawing has two rooms of a trunk swapped. */
  wrongDrawing: number;
}

const AS_MODEL = {
  isModel: false,
  rates: DEFAULT_RATES,
  errors: 1,
  renovation: 0,
  aboutNothing: 0.01,
  wrongDrawing: 0,
};

/** By threes: each rate three times the model's or a third of it, by chance. */
function ratesByThrees(random: Random): RateTables {
  const table = (rates: Readonly<Record<string, number>>) =>
    Object.fromEntries(
      Object.entries(rates).map(([mode, rate]) => [mode, rate * (random() < 0.5 ? 3 : 1 / 3)]),
    );
  const { headEnd, port, station, junction, cablePerMetre } = DEFAULT_RATES;
  return {
    headEnd: table(headEnd),
    port: table(port),
    station: table(station),
    junction: table(junction),
    cablePerMetre: table(cablePerMetre),
  };
}

export function generators(random: Random): readonly Generator[] {
  const rates = ratesByThrees(random);
  return [
    { ...AS_MODEL, name: 'as the model says', isModel: true },
    { ...AS_MODEL, name: 'each rate 3 times or a third of the model’s', rates },
    { ...AS_MODEL, name: 'people err and miss 3 times as often', errors: 3 },
    { ...AS_MODEL, name: 'renovators damage several joints in a row', renovation: 0.05 },
    { ...AS_MODEL, name: 'at one site in four two rooms are drawn swapped', wrongDrawing: 0.25 },
    {
      ...AS_MODEL,
      name: 'all of these at once',
      rates,
      errors: 3,
      renovation: 0.05,
      wrongDrawing: 0.25,
    },
    { ...AS_MODEL, name: 'nobody calls about nothing', aboutNothing: 0 },
  ];
}

/** What is proven at the start of a month is as old as this at its end. */
export const MONTH_DAYS = 365.25 / 12;

/** Every component's mode after a month: competing risks, and what others did. */
export function drawFaults(
  site: AsBuilt,
  { rates, renovation }: Generator,
  random: Random,
): WorldFault[] {
  const years = MONTH_DAYS / 365.25;
  const faults: WorldFault[] = [];
  const draw = (
    of: Pick<WorldFault, 'place' | 'component'>,
    table: Readonly<Partial<Record<string, number>>>,
    scale = 1,
  ) => {
    const total = Object.values(table).reduce<number>((sum, rate = 0) => sum + rate, 0);
    if (random() >= 1 - Math.exp(-total * scale * years)) return;
    let left = random() * total;
    for (const [mode, rate = 0] of Object.entries(table)) {
      left -= rate;
      if (left < 0) return faults.push({ ...of, mode });
    }
    return undefined;
  };
  draw({ place: { kind: 'head-end' }, component: 'head-end' }, headEndRates(site, rates));
  for (const { trunk, nodes } of site.trunks) {
    draw({ place: { kind: 'port', trunk }, component: 'port' }, rates.port);
    for (const { node, fedFrom, kind, cableMetres } of nodes) {
      const place = { kind: 'span', trunk, from: fedFrom, to: node } as const;
      draw({ place, component: 'junction-out' }, rates.junction);
      draw({ place, component: 'cable' }, rates.cablePerMetre, cableMetres);
      draw({ place, component: 'junction-in' }, rates.junction);
      if (kind === 'station')
        draw({ place: { kind: 'station', trunk, node }, component: 'station' }, rates.station);
    }
  }
  return random() < renovation ? withDamage(site, faults, random) : faults;
}

function headEndRates(site: AsBuilt, { headEnd }: RateTables): Record<string, number> {
  const groups = new Set(site.trunks.flatMap(({ nodes }) => nodes.flatMap((one) => one.groups)));
  return Object.fromEntries(
    Object.entries(headEnd).flatMap(([mode, rate]) =>
      GROUP_MODES.some((own) => own === mode)
        ? [...groups].map((group) => [`${mode}:${group}`, rate])
        : [[mode, rate]],
    ),
  );
}

/** Of three spans in a row each joint parted with chance 1/3, and the cable with 1/6. */
function withDamage(site: AsBuilt, faults: WorldFault[], random: Random): WorldFault[] {
  const { trunk, nodes } = site.trunks[Math.floor(random() * site.trunks.length)]!;
  const start = Math.floor(random() * nodes.length);
  const damaged = nodes.slice(start, start + 3).flatMap(({ node, fedFrom }) => {
    const place = { kind: 'span', trunk, from: fedFrom, to: node } as const;
    const parts = (
      [
        ['junction-out', 1 / 3],
        ['cable', 1 / 6],
        ['junction-in', 1 / 3],
      ] as const
    ).filter(([, chance]) => random() < chance);
    return parts.map(([component]): WorldFault => ({ place, component, mode: 'parted' }));
  });
  const isDamaged = (one: WorldFault) => damaged.some((other) => samePart(one, other));
  return [...faults.filter((one) => !isDamaged(one)), ...damaged];
}

function samePart(a: WorldFault, b: WorldFault): boolean {
  return a.component === b.component && JSON.stringify(a.place) === JSON.stringify(b.place);
}

/** What somebody says of a function that is truly so. */
export function drawOutcome(
  kind: InformantKind,
  condition: 'good' | 'weak' | 'dead',
  { errors }: Pick<Generator, 'errors'>,
  random: Random,
): Outcome {
  return OUTCOMES[drawIndex(erring(DEFAULT_ERROR_RATES[kind][condition], errors), random)]!;
}

export function drawIndex(chances: readonly number[], random: Random): number {
  let left = random();
  for (const [i, chance] of chances.entries()) {
    left -= chance;
    if (left < 0) return i;
  }
  return chances.length - 1;
}

/** All but the likeliest outcome so many times as likely, nine tenths of all at most. */
export function erring(chances: readonly number[], times: number): number[] {
  const right = chances.indexOf(Math.max(...chances));
  const wrong = 1 - chances[right]!;
  const factor = wrong > 0 ? Math.min(times, Math.max(1, 0.9 / wrong)) : 1;
  return chances.map((chance, i) => (i === right ? 1 - factor * wrong : factor * chance));
}

/** Functions by how soon somebody misses them. */
export const MISSED: Readonly<Record<FunctionName, number>> = {
  bell: 7,
  announcement: 7,
  music: 2,
  'room-call': 2,
  talkback: 1,
  lamp: 1,
};
