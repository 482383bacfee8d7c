// A plain generic solver: a network of tables in dictionaries, summed out one variable after another. It knows nothing of
// trunks; modelOf writes one down for it. Slow, but it reaches drawings that enumeration cannot.
import { evidenceAt } from './enumerated-answer.js';
import {
  bit,
  downThrough,
  HEAD_END_STOPS,
  ORACLE_RATES,
  type OracleRequest,
  priors,
  STATION_STOPS,
  upThrough,
} from './enumeration-tables.js';

/** A function of some variables: entries that are not listed are 0. */
export interface Factor {
  variables: string[];
  entries: Map<string, number>;
}

export function factor(variables: string[], rows: [(string | number)[], number][]): Factor {
  return {
    variables,
    entries: new Map(rows.filter(([, p]) => p !== 0).map(([row, p]) => [row.join(), p])),
  };
}

/** The values in a key; without variables there are none, where split would give one. */
const valuesOf = (key: string, f: Factor) => (f.variables.length === 0 ? [] : key.split(','));

function multiply(a: Factor, b: Factor): Factor {
  const shared = b.variables.filter((v) => a.variables.includes(v));
  const inA = shared.map((v) => a.variables.indexOf(v));
  const inB = shared.map((v) => b.variables.indexOf(v));
  const own = b.variables.flatMap((v, i) => (shared.includes(v) ? [] : [i]));
  const rowsOfB = new Map<string, [string, number][]>();
  for (const [key, p] of b.entries) {
    const row = valuesOf(key, b);
    const sharedKey = inB.map((i) => row[i]).join();
    const rest: [string, number] = [own.map((i) => row[i]!).join(), p];
    const rows = rowsOfB.get(sharedKey);
    if (rows) rows.push(rest);
    else rowsOfB.set(sharedKey, [rest]);
  }
  const entries = new Map<string, number>();
  const between = a.variables.length > 0 && own.length > 0 ? ',' : '';
  for (const [key, p] of a.entries) {
    const row = valuesOf(key, a);
    for (const [rest, q] of rowsOfB.get(inA.map((i) => row[i]).join()) ?? [])
      entries.set(key + between + rest, p * q);
  }
  return { variables: [...a.variables, ...own.map((i) => b.variables[i]!)], entries };
}

function withoutValue(key: string, at: number): string {
  let start = 0;
  for (let i = 0; i < at; i++) start = key.indexOf(',', start) + 1;
  const end = key.indexOf(',', start);
  return end < 0 ? key.slice(0, Math.max(0, start - 1)) : key.slice(0, start) + key.slice(end + 1);
}

/** What becomes of chances that differ in the variable eliminated: their sum, or Math.max for the best assignment. */
type Combine = (a: number, b: number) => number;

function sumOut(f: Factor, variable: string, combine: Combine): Factor {
  const at = f.variables.indexOf(variable);
  const entries = new Map<string, number>();
  for (const [key, p] of f.entries) {
    const rest = withoutValue(key, at);
    entries.set(rest, combine(entries.get(rest) ?? 0, p));
  }
  return { variables: f.variables.filter((v) => v !== variable), entries };
}

/**
 * Sums out the variables in this order; what is left is a function of the others.
 *
 * @param see each variable as it is summed out, with the product of what is known about it
 */
export function eliminate(
  factors: readonly Factor[],
  order: readonly string[],
  combine: Combine = (a, b) => a + b,
  see: (variable: string, product: Factor) => void = () => {},
): Factor {
  let left = [...factors];
  for (const variable of order) {
    const those = left.filter((f) => f.variables.includes(variable));
    left = left.filter((f) => !f.variables.includes(variable));
    those.sort((a, b) => a.entries.size - b.entries.size);
    const product = those.reduce(multiply);
    see(variable, product);
    left.push(sumOut(product, variable, combine));
  }
  return left.reduce(multiply, factor([], [[[], 1]]));
}

export interface Network {
  factors: Factor[];
  /** Variables from the far ends of the trunks inwards: a good order to sum them out. */
  order: string[];
}

const VIEWS = Array.from({ length: 8 }, (_, v) => (v & 1) | ((v & 6) << 1));
const FEEDS = Array.from({ length: 32 }, (_, feed) => feed);

/** The fault model's network: a variable for the head-end, each informant, port, component, view and feed. */
export function modelOf(request: OracleRequest): Network {
  const rates = { ...ORACLE_RATES, ...request.rates };
  const years = (days: number) => days / 365.25;
  const prior = (name: string, chances: Record<string, number>) =>
    factor(
      [name],
      Object.entries(chances).map(([mode, p]) => [[mode], p]),
    );
  const people = [
    ...new Set(
      (request.observations ?? []).flatMap(({ informant }) =>
        informant?.id !== undefined && informant.kind === 'office' ? [informant.id] : [],
      ),
    ),
  ];
  const factors = [
    prior('H', priors(rates.headEnd, 1, years(request.exposureDays))),
    ...people.map((id) => prior(`X ${id}`, { 0: 0.98, 1: 0.02 })),
  ];
  const order: string[] = [];
  for (const trunk of request.trunks) {
    const name = (what: string, id: string) => `${what} ${trunk.id} ${id}`;
    const feederOf = new Map(
      trunk.nodes.map(({ id, fedFrom }, n) => [
        id,
        fedFrom === undefined ? trunk.nodes[n - 1]?.id : (fedFrom ?? undefined),
      ]),
    );
    const port = name('P', '');
    // Views of spans that join are added up one by one.
    const openView = new Map<string | undefined, string>();
    const join = (at: string | undefined, view: string) => {
      const so = openView.get(at);
      const next = so === undefined ? view : `${so}+`;
      if (so !== undefined) {
        factors.push(
          factor(
            [so, view, next],
            VIEWS.flatMap((a) => VIEWS.map((b): [number[], number] => [[a, b, a | b], 1])),
          ),
        );
        order.push(so, view);
      }
      openView.set(at, next);
    };
    const depth = (id: string): number => {
      const feeder = feederOf.get(id);
      return feeder === undefined ? 0 : depth(feeder) + 1;
    };
    const farthestFirst = [...trunk.nodes].sort((a, b) => depth(b.id) - depth(a.id));
    for (const node of farthestFirst) {
      const t = years(node.exposureDays ?? request.exposureDays);
      const station = node.kind === 'station' ? priors(rates.station, 1, t) : { ok: 1 };
      const s = name('S', node.id);
      const below = openView.get(node.id);
      const view = name('V', node.id);
      const feed = name('F', node.id);
      const shorted = (mode: string) => (mode === 'short-supply' ? bit('supply') : 0);
      factors.push(
        prior(s, station),
        below === undefined
          ? factor(
              [s, view],
              Object.keys(station).map((m) => [[m, shorted(m)], 1]),
            )
          : factor(
              [s, below, view],
              Object.keys(station).flatMap((m) =>
                VIEWS.map((v): [(string | number)[], number] => [[m, v, v | shorted(m)], 1]),
              ),
            ),
      );
      if (node.kind === 'station') {
        const here = (request.observations ?? []).filter(
          (o) => o.trunk === trunk.id && o.node === node.id,
        );
        const speakers = people.filter((id) => here.some((o) => o.informant?.id === id));
        const settings = Array.from({ length: 2 ** speakers.length }, (_, set) =>
          speakers.map((_, v) => (set >> v) & 1),
        );
        factors.push(
          factor(
            ['H', s, feed, ...speakers.map((id) => `X ${id}`)],
            Object.keys(HEAD_END_STOPS).flatMap((headEnd) =>
              Object.keys(STATION_STOPS).flatMap((mode) =>
                FEEDS.flatMap((d) =>
                  settings.map((set): [(string | number)[], number] => {
                    const confused = new Set(speakers.filter((_, v) => set[v]));
                    const setting = { headEnd, confused, prior: 1 };
                    return [
                      [headEnd, mode, d, ...set],
                      evidenceAt(request, trunk.id, node, setting, mode, d),
                    ];
                  }),
                ),
              ),
            ),
          ),
        );
      }
      order.push(s, ...(below === undefined ? [] : [below]));
      const feeder = feederOf.get(node.id);
      const feedAbove = feeder === undefined ? name('D', '') : name('F', feeder);
      const points = [
        { v: view, f: feed, component: name('I', node.id), chances: priors(rates.junction, 1, t) },
        {
          v: name('VI', node.id),
          f: name('FI', node.id),
          component: name('C', node.id),
          chances: priors(rates.cablePerMetre, node.cableMetres, t),
        },
        {
          v: name('VC', node.id),
          f: name('FC', node.id),
          component: name('O', node.id),
          chances: priors(rates.junction, 1, t),
        },
        { v: name('VO', node.id), f: feedAbove, component: '', chances: {} },
      ];
      points.slice(0, 3).forEach(({ v, f, component, chances }, i) => {
        const { v: above, f: feedOver } = points[i + 1]!;
        const modes = Object.keys(chances);
        factors.push(
          prior(component, chances),
          factor(
            [component, v, above],
            modes.flatMap((m) =>
              VIEWS.map((u): [(string | number)[], number] => [[m, u, upThrough(m, u)], 1]),
            ),
          ),
          factor(
            [component, feedOver, f],
            modes.flatMap((m) =>
              FEEDS.map((d): [(string | number)[], number] => [[m, d, downThrough(m, d)], 1]),
            ),
          ),
        );
        order.push(component, v, f);
      });
      join(feeder, name('VO', node.id));
    }
    const seen = openView.get(undefined)!;
    const portChances = priors(rates.port, 1, years(request.exposureDays));
    factors.push(
      prior(port, portChances),
      factor(
        [port, seen, name('D', '')],
        Object.keys(portChances).flatMap((mode) =>
          VIEWS.map((v): [(string | number)[], number] => [
            [mode, v, 15 & ~v & (mode === 'ok' ? 15 : ~bit('supply'))],
            1,
          ]),
        ),
      ),
    );
    order.push(name('D', ''), seen, port);
  }
  // A variable met twice is summed out where it is met last.
  const last = order.filter((v, i) => order.lastIndexOf(v) === i);
  return { factors, order: [...last, ...people.map((id) => `X ${id}`), 'H'] };
}

/** log P(evidence), by generic elimination. */
export function genericLogEvidence(request: OracleRequest): number {
  const { factors, order } = modelOf(request);
  return Math.log(eliminate(factors, order).entries.get('') ?? 0);
}

/** log P(evidence), and P(mode | evidence) of one variable of modelOf, by generic elimination. */
export function genericPosterior(
  request: OracleRequest,
  variable: string,
): { logEvidence: number; modes: Record<string, number> } {
  const { factors, order } = modelOf(request);
  const rest = eliminate(
    factors,
    order.filter((v) => v !== variable),
  );
  const total = [...rest.entries.values()].reduce((a, b) => a + b, 0);
  const modes = Object.fromEntries([...rest.entries].map(([mode, p]) => [mode, p / total]));
  return { logEvidence: Math.log(total), modes };
}
