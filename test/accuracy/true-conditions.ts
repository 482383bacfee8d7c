import type { Faults, NodeFaults } from './faults.js';
import { type Site, type Trunk, wayUp } from './site.js';

export type Condition = 'good' | 'weak' | 'dead';
export type FunctionName = 'lamp' | 'announcement' | 'bell' | 'music' | 'room-call' | 'talkback';

const CORES_NEEDED: Record<FunctionName, string[]> = {
  lamp: ['supply', 'return'],
  announcement: ['supply', 'return', 'speech'],
  bell: ['supply', 'return', 'speech'],
  music: ['supply', 'return', 'speech'],
  'room-call': ['supply', 'return', 'speech', 'select'],
  talkback: ['supply', 'return', 'speech', 'select'],
};
export const ALL_FUNCTIONS = Object.keys(CORES_NEEDED) as FunctionName[];

const LOUDSPEAKER = ['announcement', 'bell', 'music', 'room-call'];
const HEAD_END_SILENCES: Record<string, readonly string[]> = {
  power: ALL_FUNCTIONS,
  amplifier: LOUDSPEAKER,
  receiver: ['talkback'],
  selector: ['room-call', 'talkback'],
  'bell-source': ['bell'],
  microphone: ['announcement', 'room-call'],
  'line-input': ['music'],
};
const STATION_SILENCES: Record<string, readonly string[]> = {
  dead: ALL_FUNCTIONS,
  speaker: LOUDSPEAKER,
  'volume-down': LOUDSPEAKER,
  microphone: ['talkback'],
  address: ['room-call', 'talkback'],
  lamp: ['lamp'],
  'bell-setting': ['bell'],
  'announcement-setting': ['announcement'],
  'music-setting': ['music'],
};

const cuts = (mode: string, core: string) => mode === 'parted' || mode === `open-${core}`;

/** The modes of a span, from the feeder's end. */
const inSeries = ({ junctionOut, cable, junctionIn }: NodeFaults) => [
  junctionOut,
  cable,
  junctionIn,
];

/**
 * What is true of a function at a room, along whole paths and not step by step as the locator and its oracle do it: a
 * core arrives if nothing on the way cuts it and no short of it is to be seen from the port; a short is to be seen if
 * nothing between it and the port cuts its core or the return.
 */
export function trueConditions(
  site: Site,
  faults: Faults,
): (trunk: number, node: number, name: FunctionName) => Condition {
  const shorted = site.trunks.map((trunk, t) => shortsSeenFromPort(trunk, faults.trunks[t]!.nodes));
  const ways = site.trunks.map(({ nodes }) => new Array<string[] | undefined>(nodes.length));
  const wayTo = (t: number, node: number) =>
    (ways[t]![node] ??= wayUp(site.trunks[t]!, node).flatMap((n) =>
      inSeries(faults.trunks[t]!.nodes[n]!).filter((mode) => mode !== 'ok'),
    ));
  return (t, node, name) => {
    const { port, nodes } = faults.trunks[t]!;
    const way = wayTo(t, node);
    const arrives = (core: string) =>
      !(core === 'supply' && port === 'no-output') &&
      !shorted[t]!.has(core) &&
      !way.some((mode) => cuts(mode, core));
    if (
      !CORES_NEEDED[name].every(arrives) ||
      HEAD_END_SILENCES[faults.headEnd]?.includes(name) ||
      STATION_SILENCES[nodes[node]!.station]?.includes(name)
    )
      return 'dead';
    return way.includes('resistive') ? 'weak' : 'good';
  };
}

function shortsSeenFromPort(trunk: Trunk, nodes: readonly NodeFaults[]): Set<string> {
  const seen = new Set<string>();
  const look = (core: string, between: readonly string[]) => {
    if (!between.some((mode) => cuts(mode, core) || cuts(mode, 'return'))) seen.add(core);
  };
  nodes.forEach((own, node) => {
    const span = inSeries(own);
    const shorts = [...span, own.station].flatMap((mode, order) =>
      mode.startsWith('short-') ? [{ core: mode.slice('short-'.length), order }] : [],
    );
    if (shorts.length === 0) return;
    const above = wayUp(trunk, node)
      .slice(1)
      .flatMap((n) => inSeries(nodes[n]!));
    for (const { core, order } of shorts) look(core, [...above, ...span.slice(0, order)]);
  });
  return seen;
}
