// Section 5's explanations of trunks without tees as a network: a variable for the head-end, each port, and each informative
// node's view and feed together; what lies between is added up by listing what every span can do to views and feeds.
import { evidenceAt } from '../oracle/evidence.js';
import { headEndRates, priors } from '../oracle/mode-chances.js';
import type { OracleRequest } from '../oracle/request.js';
import { downThrough, upThrough } from '../oracle/span-kinds.js';
import { bit, ORACLE_RATES } from '../oracle/tables.js';
import { type OracleTrunk, oracleTrunks } from '../oracle/trunks.js';
import type { Factor } from '../eliminate.js';
import { BayesNetwork, type Variable } from './bayes-network.js';

/** What the components between two points do: the view above for each view below, the feed below for each feed above. */
interface Effect {
  chance: number;
  up: number[];
  down: number[];
}

const VIEWS = [0, 1, 4, 5, 8, 9, 12, 13];
const FEEDS = Array.from({ length: 32 }, (_, feed) => feed);
const NOTHING: Effect = { chance: 1, up: VIEWS, down: FEEDS };

/** A core whose short shows cannot arrive. */
const STATES = VIEWS.flatMap((view) =>
  FEEDS.flatMap((feed) => ((view & feed) === 0 ? [`${view}/${feed}`] : [])),
);
const viewOf = (state: string) => Number(state.split('/')[0]);
const feedOf = (state: string) => Number(state.split('/')[1]);

/** Lists by a number each: what many effects do alike is put in a row once for each pair of them. */
class Alike {
  private readonly numbers = new Map<string, number>();
  readonly lists: number[][] = [];

  numberOf(list: number[]): number {
    const known = this.numbers.get(list.join());
    if (known !== undefined) return known;
    this.numbers.set(list.join(), this.lists.length);
    return this.lists.push(list) - 1;
  }
}

/** Two stretches in a row; effects that do the same are added up. */
function inRow(upper: readonly Effect[], lower: readonly Effect[]): Effect[] {
  const [ups, downs] = [new Alike(), new Alike()];
  const numbered = (effects: readonly Effect[]) =>
    effects.map(({ chance, up, down }) => {
      return { chance, up: ups.numberOf(up), down: downs.numberOf(down) };
    });
  const [above, below] = [numbered(upper), numbered(lower)];
  const upOf = inPairs((a, b) =>
    ups.numberOf(ups.lists[b]!.map((view) => ups.lists[a]![VIEWS.indexOf(view)]!)),
  );
  const downOf = inPairs((a, b) =>
    downs.numberOf(downs.lists[a]!.map((feed) => downs.lists[b]![feed]!)),
  );
  const all = new Map<number, Effect>();
  for (const a of above)
    for (const b of below) {
      const [up, down] = [upOf(a.up, b.up), downOf(a.down, b.down)];
      const key = up * MOST_LISTS + down;
      let known = all.get(key);
      if (!known)
        all.set(key, (known = { chance: 0, up: ups.lists[up]!, down: downs.lists[down]! }));
      known.chance += a.chance * b.chance;
    }
  return [...all.values()];
}

const MOST_LISTS = 1e6;

function inPairs(work: (a: number, b: number) => number): typeof work {
  const known = new Map<number, number>();
  return (a, b) => {
    const key = a * MOST_LISTS + b;
    const found = known.get(key) ?? work(a, b);
    known.set(key, found);
    return found;
  };
}

/** Each mode of a component, or of a station, which only adds to the view. */
function effectsOf(chances: Record<string, number>, isStation: boolean): Effect[] {
  return Object.entries(chances).map(([mode, chance]) => ({
    chance,
    up: VIEWS.map((v) => (isStation && mode !== 'short-supply' ? v : upThrough(mode, v))),
    down: isStation ? FEEDS : FEEDS.map((feed) => downThrough(mode, feed)),
  }));
}

export function explanationNetwork(request: OracleRequest): BayesNetwork {
  const network = new BayesNetwork();
  const headEnds = priors(
    headEndRates(request, request.rates?.headEnd ?? ORACLE_RATES.headEnd),
    1,
    request.exposureDays / 365.25,
  );
  const headEnd = network.add('head-end', Object.keys(headEnds), [], () => headEnds);
  for (const trunk of oracleTrunks(request)) addTrunk(network, request, trunk, headEnd);
  return network;
}

function addTrunk(
  network: BayesNetwork,
  request: OracleRequest,
  trunk: OracleTrunk,
  headEnd: Variable,
): void {
  const isTold = (id: string) =>
    request.observations?.some((o) => o.trunk === trunk.id && o.node === id) ?? false;
  const port = network.add(`port ${trunk.id}`, Object.keys(trunk.port), [], () => trunk.port);
  const name = (n: number) => `${trunk.id} ${trunk.nodes[n]!.id}`;
  let above = -1;
  let run = [NOTHING];
  trunk.nodes.forEach((node, n) => {
    run = inRow(run, spanEffects(trunk, n));
    if (!isTold(node.id)) {
      run = inRow(run, effectsOf(Object.fromEntries(trunk.stationModes[n]!), true));
      return;
    }
    network.variables.push({ name: name(n), values: STATES });
    if (above < 0) network.tables.push(fromPort(port.name, name(n), run));
    else
      network.tables.push(
        between({ request, trunk, headEnd, n: above }, name(above), run, name(n)),
      );
    above = n;
    run = [NOTHING];
  });
  network.tables.push(between({ request, trunk, headEnd, n: above }, name(above), run, null));
}

function spanEffects(trunk: OracleTrunk, n: number): Effect[] {
  return trunk.spanKinds[n]!.map(({ chance, up, down }) => ({ chance, up, down }));
}

function fromPort(port: string, node: string, run: readonly Effect[]): Factor {
  const rows = new Map<string, number>();
  for (const mode of ['ok', 'no-output'])
    for (const state of STATES) {
      const view = VIEWS.indexOf(viewOf(state));
      const feed = feedOf(state);
      const key = `${mode},${state}`;
      for (const { chance, up, down } of run) {
        const start = 15 & ~up[view]! & (mode === 'ok' ? 15 : ~bit('supply'));
        if (down[start] === feed) rows.set(key, (rows.get(key) ?? 0) + chance);
      }
    }
  return { variables: [port, node], entries: rows };
}

/** A station's modes, what is known there, and the run to the next informative node, or to the trunk's end. */
function between(
  at: { request: OracleRequest; trunk: OracleTrunk; headEnd: Variable; n: number },
  node: string,
  run: readonly Effect[],
  next: string | null,
): Factor {
  const { request, trunk, headEnd, n } = at;
  const runs = FEEDS.map((feed) => runFrom(feed, run, next === null ? ['0/'] : STATES));
  const rows = new Map<string, number>();
  for (const headEndMode of headEnd.values)
    for (const feed of FEEDS) {
      const setting = { headEnd: headEndMode, confused: new Set<string>(), prior: 1 };
      const told = evidenceAt(request, { trunk: trunk.id, node: trunk.nodes[n]!, setting });
      let sound = 0;
      let shorted = 0;
      for (const [mode, chance] of trunk.stationModes[n]!) {
        const p = chance * (told?.(mode, feed) ?? 1);
        if (mode === 'short-supply') shorted += p;
        else sound += p;
      }
      const add = (view: number, end: string, p: number) => {
        const key = [headEndMode, `${view}/${feed}`, ...(next === null ? [] : [end])].join();
        if ((view & feed) === 0) rows.set(key, (rows.get(key) ?? 0) + p);
      };
      for (const [end, tops] of runs[feed]!)
        tops.forEach((chance, top) => {
          add(top, end, sound * chance);
          add(top | bit('supply'), end, shorted * chance);
        });
    }
  const variables = [headEnd.name, node, ...(next === null ? [] : [next])];
  return { variables, entries: rows };
}

/** By the state where the run ends: P(it, and each view at the run's top | this feed at the top). */
function runFrom(feed: number, run: readonly Effect[], ends: readonly string[]) {
  return new Map(
    ends.map((end) => {
      const tops = new Map<number, number>();
      const view = VIEWS.indexOf(viewOf(end));
      const feedThere = end === '0/' ? null : feedOf(end);
      for (const { chance, up, down } of run) {
        if (feedThere !== null && down[feed] !== feedThere) continue;
        const top = up[view]!;
        tops.set(top, (tops.get(top) ?? 0) + chance);
      }
      return [end, tops];
    }),
  );
}
