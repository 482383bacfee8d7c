import type { FunctionName } from '#app/locator/index.js';

/** A trunk as it is drawn; the as-built record's own fields fit. */
export interface DrawnCable {
  trunk: string;
  name: string;
  nodes: DrawnStation[];
}

export interface DrawnStation {
  node: string;
  kind: 'station' | 'junction-box';
  fedFrom: string | null;
  room: string | null;
  isOut: boolean;
  cableMetres: number;
  /** Groups of rooms that the head-end can set apart. */
  groups?: readonly string[];
}

/** What was said of a node and cannot all be so, or hardly goes with the rest. */
export interface DoubtedHere {
  trunk: string;
  node: string;
  words: string;
}

/** How often something of a node, or of the span into it, was found at fault. */
export interface FoundHere {
  trunk: string;
  node: string;
  times: number;
  words: string;
}

/** Groups by name, each with the letter that stands at its rooms: a, b, … z, a2, … */
export function groupLetters(cables: readonly DrawnCable[]): ReadonlyMap<string, string> {
  const names = cables.flatMap(({ nodes }) => nodes.flatMap(({ groups = [] }) => groups));
  const sorted = [...new Set(names)].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  return new Map(sorted.map((name, i) => [name, letterOf(i)]));
}

const LETTERS = 26;

function letterOf(index: number): string {
  const letter = String.fromCharCode(97 + (index % LETTERS));
  return index < LETTERS ? letter : `${letter}${Math.floor(index / LETTERS) + 1}`;
}

export type SaidOutcome = 'works' | 'weak' | 'fails';

/** What holds of a function at a station now. */
export interface SaidHere {
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: SaidOutcome;
}

interface Placed {
  kind: 'span' | 'station' | 'port' | 'head-end';
  trunk?: string;
  from?: string | null;
  to?: string;
  node?: string;
}

/** Of the locator's answer, what the drawing shows. */
export interface DrawnChances {
  places: { place: Placed; probability: number }[];
  stretches: { trunk: string; probability: number; spans: { to: string; share: number }[] }[];
  predictions: { trunk: string; node: string; function: FunctionName; works: number }[];
}

/** How a node is marked: what was said of it, or that nothing was, and what is expected then. */
export type ShownMark = SaidOutcome | 'unsaid';

export interface NodeFacts {
  mark: ShownMark;
  /** Expected by what leads, where nothing was said: null where nobody can tell, or nothing is asked. */
  expected: 'works' | 'fails' | null;
  /** Each function that something was said of, in the fixed order; empty where the whole drawing has one. */
  functions: { name: FunctionName; outcome: SaidOutcome }[];
  /** That something in the span into it is faulty. */
  spanChance: number;
  /** That something of its own is. */
  ownChance: number;
}

const FUNCTION_ORDER: readonly FunctionName[] = [
  'announcement',
  'bell',
  'music',
  'lamp',
  'room-call',
  'talkback',
];

/** Numbers stand beside what has at least this chance. */
export const LEAST_SHOWN = 0.05;

/** Beyond these odds the expectation is drawn. */
const EXPECTED_ABOVE = 0.6;

export interface TrunkFacts {
  nodes: ReadonlyMap<string, NodeFacts>;
  portChance: number;
  headEndChance: number;
  /** Stretches worth a bracket, by the nodes that their spans lead into. */
  stretches: { into: string[]; probability: number }[];
}

/** What is known and thought of one trunk. */
export function trunkFacts(
  cable: DrawnCable,
  said: readonly SaidHere[],
  chances: DrawnChances | undefined,
): TrunkFacts {
  const here = said.filter(({ trunk }) => trunk === cable.trunk);
  const isOfSeveral = new Set(said.map((one) => one.function)).size > 1;
  const chanceOf = (matches: (place: Placed) => boolean) =>
    chances?.places.find(({ place }) => matches(place))?.probability ?? 0;
  const ofTrunk = (kind: Placed['kind'], more: Partial<Placed>) =>
    chanceOf(
      (place) =>
        place.kind === kind &&
        place.trunk === cable.trunk &&
        Object.entries(more).every(([key, value]) => place[key as keyof Placed] === value),
    );
  const asked = mostAsked(said);
  const nodes = new Map(
    cable.nodes.map(({ node, kind, isOut }): [string, NodeFacts] => {
      const functions = here
        .filter((one) => one.node === node)
        .map((one) => ({ name: one.function, outcome: one.outcome }))
        .sort((a, b) => FUNCTION_ORDER.indexOf(a.name) - FUNCTION_ORDER.indexOf(b.name));
      const mark = worst(functions.map(({ outcome }) => outcome));
      const isSpeaking = kind === 'station' && !isOut;
      const facts = {
        mark,
        expected:
          mark === 'unsaid' && isSpeaking && asked !== undefined
            ? expectedAt(chances, { trunk: cable.trunk, node, function: asked })
            : null,
        functions: isOfSeveral ? functions : [],
        spanChance: ofTrunk('span', { to: node }),
        ownChance: ofTrunk('station', { node }),
      };
      return [node, facts];
    }),
  );
  return {
    nodes,
    portChance: ofTrunk('port', {}),
    headEndChance: chanceOf(({ kind }) => kind === 'head-end'),
    stretches: (chances?.stretches ?? [])
      .filter(
        ({ trunk, spans, probability }) =>
          trunk === cable.trunk && spans.length > 1 && probability >= LEAST_SHOWN,
      )
      .map(({ spans, probability }) => ({ into: spans.map(({ to }) => to), probability })),
  };
}

function expectedAt(
  chances: DrawnChances | undefined,
  at: { trunk: string; node: string; function: FunctionName },
): NodeFacts['expected'] {
  const works = chances?.predictions.find(
    (one) => one.trunk === at.trunk && one.node === at.node && one.function === at.function,
  )?.works;
  if (works === undefined) return null;
  if (works > EXPECTED_ABOVE) return 'works';
  return works < 1 - EXPECTED_ABOVE ? 'fails' : null;
}

/** The function that fails most often: what is expected is drawn for it. */
function mostAsked(said: readonly SaidHere[]): FunctionName | undefined {
  const counts = FUNCTION_ORDER.map((name) => ({
    name,
    count: said.filter((one) => one.function === name && one.outcome !== 'works').length,
  }));
  const [first] = counts.sort((a, b) => b.count - a.count);
  return first !== undefined && first.count > 0 ? first.name : undefined;
}

function worst(outcomes: readonly SaidOutcome[]): ShownMark {
  if (outcomes.includes('fails')) return 'fails';
  if (outcomes.includes('weak')) return 'weak';
  return outcomes.length > 0 ? 'works' : 'unsaid';
}

/** What was said last of each function at each station of the trunk as it is used, without what was taken back. */
export function lastSaid(observations: readonly SaidAt[]): SaidHere[] {
  const last = new Map<string, SaidHere & { observedAt: string }>();
  for (const one of observations) {
    // While cable was off it was another trunk.
    if (one.withdrawal !== null || one.disconnectedBelow !== null) continue;
    if (!isSaidOutcome(one.outcome)) continue;
    const key = JSON.stringify([one.trunk, one.node, one.function]);
    const earlier = last.get(key);
    if (earlier !== undefined && earlier.observedAt > one.observedAt) continue;
    const { trunk, node, observedAt, outcome } = one;
    last.set(key, { trunk, node, function: one.function as FunctionName, outcome, observedAt });
  }
  return [...last.values()].map(({ observedAt: _at, ...said }) => said);
}

interface SaidAt {
  trunk: string;
  node: string;
  function: string;
  outcome: string;
  observedAt: string;
  disconnectedBelow: string | null;
  withdrawal: unknown;
}

function isSaidOutcome(outcome: string): outcome is SaidOutcome {
  return outcome === 'works' || outcome === 'weak' || outcome === 'fails';
}
