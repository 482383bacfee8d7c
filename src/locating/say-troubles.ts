import type { Place } from '../drawing/drawn-node.js';
import type { ComponentName } from '../locator/index.js';
import { type FunctionName, FUNCTIONS } from '../plan/functions.js';
import type { StationMode } from '../plan/modes.js';
import type { AsBuilt } from '../sites/as-built.js';
import { findNode, nameNodesOf } from '../sites/drawing.js';
import { type ToldCause, wholePercents, type Words } from '../words/index.js';
import type {
  CauseDetailDto,
  GroupedTroubleDto,
  HalveDto,
  MissedDto,
  RoomDto,
  ToldCauseDto,
} from './answer.dto.js';
import type { GroupedCause, GroupedTrouble } from './group-troubles.js';
import { halveShort } from './halve-short.js';

/** What breaks what, with the words beside. */
export function sayTrouble(
  { trunk, points, causes }: GroupedTrouble,
  drawing: AsBuilt,
  words: Words,
): GroupedTroubleDto {
  const missed = missedOf(trunk, points, drawing);
  const percents = wholePercents(causes.map(({ probability }) => probability));
  const told = causes.map((one, i) => sayCause(one, percents[i] ?? 0, { trunk, drawing, words }));
  const said = missed.map(({ functions, rooms }) =>
    words.answer.missedIn(
      functions.map((name) => words.answer.functions[name]),
      roomsInRuns(
        trunk,
        rooms.map(({ node }) => node),
        drawing,
        words,
      ),
    ),
  );
  const worthSaying = told.filter(({ percent }) => percent > 0);
  return { words: words.answer.trouble(said, worthSaying), trunk, missed, causes: told };
}

/** Functions that are missed in the same rooms together. */
function missedOf(trunk: string, points: GroupedTrouble['points'], drawing: AsBuilt): MissedDto[] {
  const byRooms = new Map<string, MissedDto>();
  for (const name of FUNCTIONS) {
    const nodes = new Set(points.filter((one) => one.function === name).map(({ node }) => node));
    if (nodes.size === 0) continue;
    const rooms = inRecordOrder(trunk, nodes, drawing);
    const key = rooms.map(({ node }) => node).join('\n');
    const known = byRooms.get(key) ?? { functions: [] as FunctionName[], rooms };
    known.functions.push(name);
    byRooms.set(key, known);
  }
  return [...byRooms.values()];
}

function inRecordOrder(trunk: string, nodes: ReadonlySet<string>, drawing: AsBuilt): RoomDto[] {
  const drawn = drawing.trunks.find((one) => one.trunk === trunk)?.nodes ?? [];
  return drawn
    .filter(({ node }) => nodes.has(node))
    .map(({ node, room }) => ({ trunk, node, room }));
}

/** As few words as name them: from the first to the last of those that follow each other on the record. */
export function roomsInRuns(
  trunk: string,
  nodes: readonly string[],
  drawing: AsBuilt,
  words: Words,
): string[] {
  const nameNode = nameNodesOf(drawing, words);
  const named = new Set(nodes);
  const stations = (drawing.trunks.find((one) => one.trunk === trunk)?.nodes ?? []).filter(
    ({ node, kind, isOut }) => named.has(node) || (kind === 'station' && isOut !== true),
  );
  const runs: string[][] = [[]];
  for (const { node } of stations) {
    if (named.has(node)) runs.at(-1)?.push(nameNode(trunk, node));
    else runs.push([]);
  }
  return runs.flatMap((run) => {
    const [first, last] = [run[0], run.at(-1)];
    if (first === undefined || last === undefined || run.length < SHORTEST_RUN) return run;
    return [words.answer.range(first, last)];
  });
}

const SHORTEST_RUN = 3;

interface Said {
  trunk: string;
  drawing: AsBuilt;
  words: Words;
}

function sayCause(grouped: GroupedCause, percent: number, said: Said): ToldCauseDto {
  const { cause, probability } = grouped;
  const { drawing, words } = said;
  return {
    kind: cause.kind,
    words: words.answer.cause(ofOneMode(grouped), nameNodesOf(drawing, words)),
    place: placeOf(cause, said.trunk),
    mode: cause.kind === 'head-end' ? cause.mode : null,
    probability,
    percent,
    details: grouped.details.map((detail) => sayDetail(grouped, detail, said)),
    halve: cause.kind === 'short' ? sayHalve(grouped, said) : null,
  };
}

export interface LeadingPlace {
  place: Place;
  probability: number;
}

/** The place that most likely accounts for a trouble; null where no one place does, undefined where there is no trouble. */
export function leadingPlace(troubles: readonly GroupedTrouble[]): LeadingPlace | null | undefined {
  if (troubles.length === 0) return undefined;
  const places = troubles.flatMap(({ trunk, causes: [first] }) => {
    const place = first === undefined ? null : goneTo(first.cause, trunk);
    return first === undefined || place === null ? [] : { place, probability: first.probability };
  });
  return places.sort((a, b) => b.probability - a.probability)[0] ?? null;
}

/** Where one goes for a cause: what is wrong in the head-end is a way of failing, and the head-end is the place. */
function goneTo(cause: ToldCause, trunk: string): Place | null {
  return cause.kind === 'head-end' ? { kind: 'head-end' } : placeOf(cause, trunk);
}

/** Where one goes to look; null where there is no one place. */
function placeOf(cause: ToldCause, trunk: string): Place | null {
  if ('place' in cause) return cause.place;
  if (cause.kind !== 'own-unit' || cause.node === null) return null;
  return { kind: 'station', trunk, node: cause.node };
}

/** Nearly all of what may be wrong with a unit is one thing: then that is said. */
const NEARLY_ALL = 0.9;

function ofOneMode({ cause, probability, details: [first] }: GroupedCause): ToldCause {
  if (cause.kind !== 'own-unit' || first === undefined) return cause;
  return first.probability < NEARLY_ALL * probability
    ? cause
    : { ...cause, mode: first.part as StationMode };
}

function sayDetail(
  { cause }: GroupedCause,
  { part, probability }: GroupedCause['details'][number],
  { drawing, words }: Said,
): CauseDetailDto {
  const nameNode = nameNodesOf(drawing, words);
  if ('place' in cause && !isOfModes(cause.place))
    return {
      component: part,
      mode: null,
      words: words.component(part as ComponentName, cause.place, nameNode),
      probability,
    };
  const ofMode: ToldCause =
    'place' in cause && cause.place.kind === 'head-end'
      ? { kind: 'head-end', mode: part }
      : { kind: 'own-unit', node: '', mode: part as StationMode };
  return { component: null, mode: part, words: words.answer.cause(ofMode, nameNode), probability };
}

/** What may be wrong there are ways of failing, not parts. */
function isOfModes({ kind }: Place): boolean {
  return kind === 'head-end' || kind === 'station';
}

function sayHalve({ within }: GroupedCause, { trunk, drawing, words }: Said): HalveDto | null {
  const half = halveShort(drawing, trunk, within);
  if (half === null) return null;
  const { node, behind } = half;
  return {
    trunk,
    node,
    room: findNode(drawing, trunk, node)?.room ?? null,
    behind,
    words: words.answer.halve(nameNodesOf(drawing, words)(trunk, node), trunk),
  };
}
