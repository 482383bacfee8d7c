// Section 5: what the cause of a point is in one world.
import type { TrunkEvidence } from './evidence.js';
import type { Rates } from './request.js';
import { bit, conditionOf, headEndStops, neededBy } from './tables.js';
import type { Assignment, OracleTrunk } from './trunks.js';

export interface OracleCauses {
  /** P(cause | evidence) by "nothing", "head-end MODE", "port T", "short T", "span T/N COMPONENT", "station T/N MODE". */
  causes: Rates;
  /** By "span T/N" or "station T/N": the chance that it holds such a short, given that a short is the cause. */
  within: Rates;
}

/** The shorts of each place that are seen from the port, as cores: its span's and its station's, node by node. */
export function visibleShorts(
  trunk: OracleTrunk,
  now: Assignment,
): { span: number[]; station: number[] } {
  const kind = (n: number) => trunk.spanKinds[n]![now.kinds[n]!]!;
  const passesUpTo = (n: number): number => {
    // What is seen from the top of the span into a node, if it is there.
    const above = trunk.feeder[n]!;
    return above < 0 ? 15 : passesUpTo(above) & passesThrough(above);
  };
  const passesThrough = (n: number) => {
    const left = kind(n).down[15]!;
    return left & bit('return') ? left : 0;
  };
  const station = (n: number) =>
    trunk.stationModes[n]![now.stations[n]!]![0] === 'short-supply' ? bit('supply') : 0;
  return {
    span: trunk.nodes.map((_, n) => kind(n).up[0]! & passesUpTo(n)),
    station: trunk.nodes.map((_, n) => station(n) & passesUpTo(n) & passesThrough(n)),
  };
}

/**
 * Calls `add` with each possible cause of a function at node n and its share of this world, where the head-end does not
 * stop it.
 */
function causesIn(
  trunk: OracleTrunk,
  now: Assignment,
  [name, n]: [string, number],
  visible: () => ReturnType<typeof visibleShorts>,
  add: (cause: string, share: number, shorts?: { span: number[]; station: number[] }) => void,
): void {
  const { nodes, feeder } = trunk;
  const mode = trunk.stationModes[n]![now.stations[n]!]![0];
  const condition = conditionOf(name, 'ok', mode, now.feeds[n]!);
  if (condition === 'good') {
    add('nothing', 1);
    return;
  }
  if (now.port !== 'ok') {
    add(`port ${trunk.id}`, 1);
    return;
  }
  const needed = neededBy(name);
  const shorts = visible();
  if ([...shorts.span, ...shorts.station].some((cores) => cores & needed)) {
    add(`short ${trunk.id}`, 1, {
      span: shorts.span.map((cores) => cores & needed),
      station: shorts.station.map((cores) => cores & needed),
    });
    return;
  }
  const way: number[] = [];
  for (let at = n; at >= 0; at = feeder[at]!) way.unshift(at);
  const kind = (at: number) => trunk.spanKinds[at]![now.kinds[at]!]!;
  const share = (at: number, table: Rates) => {
    for (const [component, chance] of Object.entries(table))
      add(`span ${trunk.id}/${nodes[at]!.id} ${component}`, chance / kind(at).chance);
  };
  const taker = way.find((at) => (needed & ~kind(at).down[15]!) !== 0);
  if (taker !== undefined) {
    share(taker, kind(taker).takes[name]!);
    return;
  }
  if (condition === 'dead') {
    add(`station ${trunk.id}/${nodes[n]!.id} ${mode}`, 1);
    return;
  }
  const weakener = way.find((at) => (kind(at).down[0]! & 16) !== 0)!;
  share(weakener, kind(weakener).weakens);
}

/**
 * Adds up causes of the points of one trunk, world by world; `masses` are of the world with each list of settings that are
 * alike.
 *
 * @param given.chances P(setting | evidence), by setting
 */
export function causeSums(
  trunk: OracleTrunk,
  points: readonly { function: string; node: string }[],
  {
    settings: all,
    alike,
    chances,
  }: Pick<TrunkEvidence, 'settings' | 'alike'> & { chances: readonly number[] },
): { sums: OracleCauses[]; addWorld: (now: Assignment, masses: Float64Array) => void } {
  const sums = points.map((): OracleCauses => ({ causes: {}, within: {} }));
  const at = points.map((point): [string, number] => [
    point.function,
    trunk.nodes.findIndex(({ id }) => id === point.node),
  ]);
  const addTo = (table: Rates, key: string, mass: number) =>
    (table[key] = (table[key] ?? 0) + mass);
  // What the head-end stops is never good, and nothing on the trunk is its cause.
  const isStopped = (s: number, [name, n]: [string, number]) =>
    headEndStops(all[s]!.headEnd, name, trunk.nodes[n]!.groups);
  const stopped = at.map((point) => alike.map(([first]) => isStopped(first!, point)));
  at.forEach((point, p) =>
    chances.forEach((chance, s) => {
      if (chance > 0 && isStopped(s, point))
        addTo(sums[p]!.causes, `head-end ${all[s]!.headEnd}`, chance);
    }),
  );
  const placeNames = trunk.nodes.map(({ id }) => ({
    span: `span ${trunk.id}/${id}`,
    station: `station ${trunk.id}/${id}`,
  }));
  const addWorld = (now: Assignment, masses: Float64Array) => {
    let shortsOfWorld: ReturnType<typeof visibleShorts> | undefined;
    const visible = () => (shortsOfWorld ??= visibleShorts(trunk, now));
    at.forEach((point, p) => {
      const { causes, within } = sums[p]!;
      const mass = masses.reduce((sum, one, a) => (stopped[p]![a] ? sum : sum + one), 0);
      if (mass === 0) return;
      causesIn(trunk, now, point, visible, (cause, share, shorts) => {
        addTo(causes, cause, mass * share);
        if (!shorts) return;
        placeNames.forEach(({ span, station }, n) => {
          if (shorts.span[n]) addTo(within, span, mass);
          if (shorts.station[n]) addTo(within, station, mass);
        });
      });
    });
  };
  return { sums, addWorld };
}

/** The chance of each place that it is the cause of a point; `within` as masses, not yet given the short. */
export function placesOf({ causes, within }: OracleCauses): Rates {
  const places: Rates = { ...within };
  for (const [cause, mass] of Object.entries(causes)) {
    const [kind, name] = cause.split(' ');
    if (kind === 'nothing' || kind === 'short') continue;
    const place = kind === 'head-end' ? kind : `${kind!} ${name!}`;
    places[place] = (places[place] ?? 0) + mass;
  }
  return places;
}
