// The fault model's sections 1 to 4 as a Bayesian network, for a program that knows nothing of trunks. Written apart from
// the locator and from modelOf: a variable for every component, every view, every feed, every condition, every observation.
import { headEndRates, priors } from '../oracle/mode-chances.js';
import type { OracleRequest } from '../oracle/request.js';
import { ERRORS, headEndStops, ORACLE_RATES, OUTCOMES, stationStops } from '../oracle/tables.js';
import { BayesNetwork, type Variable } from './bayes-network.js';
import {
  conditionNames,
  feedBelow,
  FEEDS,
  feedWithout,
  NEEDED_REACH,
  viewAbove,
  VIEWS,
} from './travel.js';

export interface Asked {
  trunk: string;
  node: string;
  function: string;
}

type OracleNode = OracleRequest['trunks'][number]['nodes'][number];
type Group = keyof typeof ORACLE_RATES;

/** The rates of the recorded runs: without groups and without the settings of stations, which have the same effects as modes that are there. */
export const RECORDED_RATES = {
  ...ORACLE_RATES,
  headEnd: headEndRates({ trunks: [] }, ORACLE_RATES.headEnd),
  station: {
    dead: 0.012,
    speaker: 0.006,
    'volume-down': 0.03,
    microphone: 0.008,
    address: 0.002,
    lamp: 0.004,
    'short-supply': 0.001,
  },
};

/** @param asked conditions to have a variable for, besides those that evidence speaks of */
export function faultNetwork(request: OracleRequest, asked: readonly Asked[] = []): BayesNetwork {
  const network = new BayesNetwork();
  const component = (name: string, group: Group, days: number, scale = 1) =>
    network.add(name, ['ok', ...Object.keys(RECORDED_RATES[group])], [], () =>
      priors(request.rates?.[group] ?? RECORDED_RATES[group], scale, days / 365.25),
    );
  const headEnd = component('head-end head-end', 'headEnd', request.exposureDays);
  const people = new Map<string, Variable>();
  for (const { informant } of request.observations ?? [])
    if (informant?.id !== undefined && informant.kind === 'office' && !people.has(informant.id))
      people.set(
        informant.id,
        network.add(`confused ${informant.id}`, ['no', 'yes'], [], () => ({ no: 0.98, yes: 0.02 })),
      );
  for (const { id, nodes } of request.trunks) {
    const below = childrenOf(nodes);
    /** Adds what is below a span and the span itself: the view that shows at its top. */
    const lookUp = (node: OracleNode): Variable => {
      const days = node.exposureDays ?? request.exposureDays;
      let view = union(`view ${id} ${node.id}`, (below.get(node.id) ?? []).map(lookUp));
      if (node.kind === 'station') {
        const station = component(`station ${id} ${node.id} station`, 'station', days);
        view = network.decide(`view ${id} ${node.id}`, VIEWS, [view, station], (seen, mode) =>
          mode === 'short-supply' ? viewAbove(mode, seen) : seen,
        );
      }
      for (const part of ['junction-in', 'cable', 'junction-out']) {
        const name = `span ${id} ${node.id} ${part}`;
        const crossed =
          part === 'cable'
            ? component(name, 'cablePerMetre', days, node.cableMetres)
            : component(name, 'junction', days);
        view = network.decide(`view above ${name}`, VIEWS, [crossed, view], viewAbove);
      }
      return view;
    };
    const union = (name: string, views: readonly Variable[]): Variable =>
      views.length === 0
        ? network.decide(`${name} nothing`, VIEWS, [], () => '0')
        : views.reduce((a, b, i) =>
            network.decide(`${name} union ${i}`, VIEWS, [a, b], (x, y) =>
              String(Number(x) | Number(y)),
            ),
          );
    const seen = union(`view ${id} port`, (below.get(null) ?? []).map(lookUp));
    const port = component(`port ${id} port`, 'port', request.exposureDays);
    const start = network.decide(`feed ${id}`, FEEDS, [port, seen], feedWithout);
    const find = (name: string) => network.variables.find((variable) => variable.name === name)!;
    const send = (node: OracleNode, above: Variable): void => {
      let feed = above;
      for (const part of ['junction-out', 'cable', 'junction-in']) {
        const name = `span ${id} ${node.id} ${part}`;
        feed = network.decide(`feed below ${name}`, FEEDS, [find(name), feed], feedBelow);
      }
      if (node.kind === 'station') {
        const station = find(`station ${id} ${node.id} station`);
        tell(network, { request, asked, people, trunk: id, node: node.id, headEnd, station, feed });
      }
      for (const child of below.get(node.id) ?? []) send(child, feed);
    };
    for (const node of below.get(null) ?? []) send(node, start);
  }
  return network;
}

function childrenOf(nodes: readonly OracleNode[]): Map<string | null, OracleNode[]> {
  const below = new Map<string | null, OracleNode[]>();
  nodes.forEach((node, n) => {
    const feeder = node.fedFrom === undefined ? (nodes[n - 1]?.id ?? null) : node.fedFrom;
    below.set(feeder, [...(below.get(feeder) ?? []), node]);
  });
  return below;
}

/** Conditions at one station and what was, or was not, said about them. */
function tell(
  network: BayesNetwork,
  at: {
    request: OracleRequest;
    asked: readonly Asked[];
    people: ReadonlyMap<string, Variable>;
    trunk: string;
    node: string;
    headEnd: Variable;
    station: Variable;
    feed: Variable;
  },
): void {
  const { request, people, trunk, node } = at;
  for (const [name, reach] of Object.entries(NEEDED_REACH)) {
    const isHere = (it: Asked) => it.trunk === trunk && it.node === node && it.function === name;
    const said = (request.observations ?? []).filter(isHere);
    const silence = said.length === 0 && request.unmentioned?.functions.includes(name);
    if (said.length === 0 && !silence && !at.asked.some(isHere)) continue;
    const condition = network.decide(
      `${trunk} ${node} ${name}`,
      conditionNames,
      [at.headEnd, at.station, at.feed],
      (headEnd, station, feed) => {
        if (headEndStops(headEnd, name) || stationStops(station, name)) return 'dead';
        if (Number(feed[0]) < reach) return 'dead';
        return feed.endsWith('weak') ? 'weak' : 'good';
      },
    );
    said.forEach(({ outcome, informant }, i) => {
      const errors = ERRORS[informant?.kind ?? 'office']!;
      const person = people.get(informant?.id ?? '');
      const heard = network.add(
        `told ${condition.name} ${i}`,
        OUTCOMES,
        person && informant?.kind === 'office' ? [condition, person] : [condition],
        (is, confused) =>
          Object.fromEntries(
            OUTCOMES.map((o, at) => [o, confused === 'yes' ? 1 / 3 : errors[is]![at]!]),
          ),
      );
      network.evidence.set(heard.name, outcome);
    });
    if (silence) {
      const rate = request.unmentioned!.reportRate;
      const spoken = { good: 0, weak: rate / 2, dead: rate } as Record<string, number>;
      const mention = network.add(
        `mentioned ${condition.name}`,
        ['no', 'yes'],
        [condition],
        (is) => ({ no: 1 - spoken[is]!, yes: spoken[is]! }),
      );
      network.evidence.set(mention.name, 'no');
    }
  }
}
