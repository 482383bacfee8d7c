// What the locator computes, by a solver that knows nothing of trunks: modelOf writes a site down as a network for it. Slow, but it
// reaches drawings that enumeration cannot.
import { eliminate, type Factor, factor } from './eliminate.js';
import { evidenceAt } from './oracle/evidence.js';
import { headEndRates, priors } from './oracle/mode-chances.js';
import type { OracleRequest } from './oracle/request.js';
import { downThrough, upThrough } from './oracle/span-kinds.js';
import { bit, ORACLE_RATES } from './oracle/tables.js';

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
  const headEnd = priors(headEndRates(request, rates.headEnd), 1, years(request.exposureDays));
  const headEnds = Object.keys(headEnd);
  const factors = [
    prior('H', headEnd),
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
            headEnds.flatMap((headEnd) =>
              Object.keys(station).flatMap((mode) =>
                FEEDS.flatMap((d) =>
                  settings.map((set): [(string | number)[], number] => {
                    const confused = new Set(speakers.filter((_, v) => set[v]));
                    const setting = { headEnd, confused, prior: 1 };
                    return [
                      [headEnd, mode, d, ...set],
                      evidenceAt(request, { trunk: trunk.id, node, setting })?.(mode, d) ?? 1,
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

/** log P(evidence), and P(mode | evidence) of some variables of modelOf, by generic elimination of all others. */
export function genericPosterior(
  request: OracleRequest,
  asked: readonly string[],
): { logEvidence: number; modes: Record<string, number>[] } {
  const { factors, order } = modelOf(request);
  const rest = eliminate(
    factors,
    order.filter((v) => !asked.includes(v)),
  );
  const total = [...rest.entries.values()].reduce((a, b) => a + b, 0);
  const modes = asked.map((variable) => {
    const at = rest.variables.indexOf(variable);
    const chances: Record<string, number> = {};
    for (const [key, p] of rest.entries) {
      const mode = key.split(',')[at]!;
      chances[mode] = (chances[mode] ?? 0) + p / total;
    }
    return chances;
  });
  return { logEvidence: Math.log(total), modes };
}
