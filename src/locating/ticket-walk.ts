import { type FunctionName, FUNCTIONS, type LocateRequest } from '../locator/index.js';
import { walkPlanner, type WalkProblem } from '../walk/index.js';
import {
  type ProbableWorlds,
  type WorldAnswers,
  type WorldFault,
  worldReader,
} from '../locator/worlds/index.js';
import type { Words } from '../words/index.js';
import { nameNodesOf, speaks } from '../sites/drawing.js';
import {
  arrivalCheck,
  asWalkCheck,
  disconnectCheck,
  roomCheck,
  type SiteCheck,
} from './walk-checks.js';
import {
  inOrder,
  openedPlace,
  type OpenedPlace,
  type Saying,
  type Standing,
} from './walk-place.js';
import { type WalkedDrawing, walkSpots, type WalkSpots } from './walk-spots.js';
import { type WalkWorlds, walkWorlds } from './walk-worlds.js';

/** What a walk is planned from. */
export interface WalkGiven {
  drawing: WalkedDrawing;
  request: Pick<LocateRequest, 'trunks' | 'exposureDays' | 'observations'>;
  found: ProbableWorlds;
  from: Standing;
  words: Words;
}

export interface TicketWalk {
  problem: WalkProblem;
  places: readonly OpenedPlace[];
  /** Where each spot is. */
  spots: readonly Standing[];
  /** Share of what may be at fault that is not planned with. */
  leftOut: number;
}

/** More functions than these are not checked in every room. */
const MOST_FUNCTIONS = 2;
/** Below this share of faults on other stretches, or of several at once, the plan is made for one fault on one stretch. */
const NEARLY_ALL = 0.97;

/** Functions that were reported not to work, most reported first. */
function reportedFunctions(observations: LocateRequest['observations'] = []): FunctionName[] {
  const failed = observations.filter(({ outcome }) => outcome !== 'works');
  const times = (name: FunctionName) => failed.filter((one) => one.function === name).length;
  return FUNCTIONS.filter((name) => times(name) > 0)
    .sort((a, b) => times(b) - times(a))
    .slice(0, MOST_FUNCTIONS);
}

/** Null: nothing may be at fault. */
export function ticketWalk(given: WalkGiven): TicketWalk | null {
  const { drawing, request, found, words } = given;
  const saying = { words, nameNode: nameNodesOf(drawing, words) };
  const places = placesOf(found, (fault) => openedPlace(fault, drawing, saying));
  if (places.length === 0) return null;
  const suspectTrunks = new Set(places.flatMap(({ where }) => where.trunk || []));
  if (suspectTrunks.size === 0)
    for (const { trunk } of request.observations ?? []) suspectTrunks.add(trunk);
  const trunks = [...new Set([...suspectTrunks, given.from.trunk])].filter((trunk) => trunk !== '');
  const spots = walkSpots(drawing, trunks);
  const [main = 'announcement', ...others] = reportedFunctions(request.observations);
  const read = remembered(worldReader(request));
  const on = { drawing, trunks: [...suspectTrunks], read, saying };
  const hasShort = found.worlds.some(({ faults }) =>
    faults.some(({ mode }) => mode.startsWith('short-')),
  );
  const plain = siteChecks(on, [main], false);
  const all = siteChecks(on, [...new Set<FunctionName>([main, ...others, 'lamp'])], hasShort);
  const pose = (checks: SiteCheck[], isCertain: boolean) =>
    posed({ given, places, spots, checks, isCertain, main });
  const path = singleBreaks(pose(plain, true));
  const isPath = path !== null && walkPlanner(path.problem).isExact;
  const { problem, leftOut } = isPath ? path : pose(all, false);
  return { problem, leftOut, places, spots: standings(drawing, trunks) };
}

function placesOf(found: ProbableWorlds, open: (fault: WorldFault) => OpenedPlace): OpenedPlace[] {
  const places = new Map<string, OpenedPlace>();
  for (const { faults } of found.worlds)
    for (const fault of faults) {
      const place = open(fault);
      places.set(place.key, place);
    }
  return [...places.values()].sort(inOrder);
}

function standings(drawing: WalkedDrawing, trunks: readonly string[]): Standing[] {
  const nodes = drawing.trunks
    .filter(({ trunk }) => trunks.includes(trunk))
    .flatMap(({ trunk, nodes: own }) => own.map(({ node }) => ({ trunk, node })));
  return [{ trunk: '', node: null }, ...nodes];
}

/** The same faults are asked about at every check. */
function remembered(read: ReturnType<typeof worldReader>): ReturnType<typeof worldReader> {
  const known = new Map<string, WorldAnswers>();
  return (world) => {
    const key = JSON.stringify(world.faults);
    const answers = known.get(key) ?? read(world);
    known.set(key, answers);
    return answers;
  };
}

function siteChecks(
  on: {
    drawing: WalkedDrawing;
    trunks: string[];
    read: ReturnType<typeof worldReader>;
    saying: Saying;
  },
  functions: readonly FunctionName[],
  hasShort: boolean,
): SiteCheck[] {
  const { drawing, read, saying } = on;
  const [main = 'announcement'] = functions;
  return drawing.trunks
    .filter(({ trunk }) => on.trunks.includes(trunk))
    .flatMap(({ trunk, nodes }) => [
      ...nodes.slice(0, 1).map(({ node }) => {
        const output = { trunk, node: null, nextNode: node };
        return arrivalCheck(read, output, main, saying);
      }),
      ...nodes.flatMap((drawn) => {
        const { node } = drawn;
        return [
          ...functions
            .filter((name) => speaks(drawn, name))
            .map((name) => roomCheck(read, { trunk, node }, name, saying)),
          arrivalCheck(read, { trunk, node, nextNode: node }, main, saying),
          ...(hasShort ? [disconnectCheck(read, { trunk, node }, saying)] : []),
        ];
      }),
    ]);
}

interface Posed extends Pick<WalkWorlds, 'leftOut' | 'faultsOf'> {
  problem: WalkProblem;
}

function posed(of: {
  given: WalkGiven;
  places: readonly OpenedPlace[];
  spots: WalkSpots;
  checks: readonly SiteCheck[];
  isCertain: boolean;
  main: FunctionName;
}): Posed {
  const { given, places, spots, isCertain, main } = of;
  const signOf = (fault: WorldFault) => of.checks.map(({ outcome }) => outcome([fault])).join('');
  const { worlds, faultsOf, leftOut } = walkWorlds(given.found, places, signOf);
  const suspects = worlds.map(({ faults, kinds = [] }) => faultsOf(faults, kinds));
  const seen = new Set(places.map(({ key, where }) => seenOnceOpen(key, where, main)));
  const checks = tellingChecks(of.checks, suspects, seen);
  const checkAt = new Map(checks.map(({ key }, i) => [key, i]));
  const problem: WalkProblem = {
    walkMinutes: spots.minutes,
    startSpot: spots.spotOf(given.from),
    places: places.map(({ key, label, where, openMinutes, mendMinutes }) => {
      const check = checkAt.get(seenOnceOpen(key, where, main));
      return { label, spot: spots.spotOf(where), openMinutes, mendMinutes, check };
    }),
    checks: checks.map((check) =>
      asWalkCheck(check, spots.spotOf(check.where), isCertain, faultsOf),
    ),
    worlds,
  };
  return { problem, leftOut, faultsOf };
}

/**
 * Of checks that tell the same the quickest, and whatever is seen at an open place; a check that tells nothing is none.
 */
function tellingChecks(
  checks: readonly SiteCheck[],
  suspects: readonly (readonly WorldFault[])[],
  seenOnceOpenKeys: ReadonlySet<string>,
): SiteCheck[] {
  const quickest = new Map<string, SiteCheck>();
  for (const check of checks) {
    const outcomes = suspects.map((faults) => check.outcome(faults));
    const tells = outcomes.join();
    const known = quickest.get(tells);
    if (outcomes.every((one) => one === outcomes[0])) continue;
    if (known === undefined || check.minutes < known.minutes) quickest.set(tells, check);
  }
  const chosen = new Set(quickest.values());
  return checks.filter((check) => chosen.has(check) || seenOnceOpenKeys.has(check.key));
}

/** Once terminals are open, what the room gets is measured there; at a cable's end, what arrives. */
function seenOnceOpen(key: string, { trunk, node }: Standing, main: FunctionName): string {
  const [component, ownTrunk] = JSON.parse(key) as [string, string];
  if (component === 'cable') return JSON.stringify(['arrival', trunk, node]);
  if (component === 'port' || node === null) return JSON.stringify(['arrival', ownTrunk, null]);
  return JSON.stringify(['room', trunk, node, main]);
}

/** The problem with nothing but single breaks along a cable, if they are nearly all there is. */
function singleBreaks({ problem, leftOut, faultsOf }: Posed): Posed | null {
  const worlds = problem.worlds.filter(({ faults, kinds = [] }) => {
    const [fault, ...more] = faultsOf(faults, kinds);
    return more.length === 0 && fault?.place.kind !== 'station' && fault?.mode !== 'resistive';
  });
  const kept = worlds.reduce((sum, { probability }) => sum + probability, 0);
  if ((1 - leftOut) * kept < NEARLY_ALL) return null;
  const alone = worlds.map((world) => ({ ...world, probability: world.probability / kept }));
  return { problem: { ...problem, worlds: alone }, leftOut: 1 - (1 - leftOut) * kept, faultsOf };
}
