import {
  type ErrorRates,
  type FunctionName,
  FUNCTIONS,
  type LocateRequest,
} from '../locator/index.js';
import { type PlanBranch, type WalkAction, walkPlanner, type WalkProblem } from '../walk/index.js';
import { type ProbableWorld, type WorldFault } from '../locator/worlds/index.js';
import { nameNodesOf } from '../sites/drawing.js';
import type { WorkTimes } from '../work-times/work-times.js';
import type { Words } from '../words/index.js';
import { asWalkCheck, type SiteCheck } from './walk-checks.js';
import {
  FALSE_CHANCE,
  lookFor,
  type LookedAtPart,
  missedByTechnician,
  seenSound,
} from './walk-looks.js';
import type { WorldReader } from './walk-reader.js';
import type { WalkRecord } from './walk-records.js';
import { inOrder, openedPlace, type OpenedPlace, placeKey, type Standing } from './walk-place.js';
import { seenOnceOpen, shortChecks, shortSeenOnceOpen, siteChecks } from './walk-site-checks.js';
import { type WalkedDrawing, walkSpots, type WalkSpots } from './walk-spots.js';
import { remadeCheck, STILL_FAILS } from './walk-seen.js';
import { type WalkWorlds, walkWorlds } from './walk-worlds.js';

/** What a walk is planned from. */
export interface WalkGiven {
  drawing: WalkedDrawing;
  request: Pick<LocateRequest, 'trunks' | 'exposureDays' | 'observations' | 'looks'>;
  /** Left out: the starting values. */
  errors?: ErrorRates | undefined;
  /** With the faults that must be mended alone, see `neededWorlds`. */
  worlds: readonly Pick<ProbableWorld, 'faults' | 'probability'>[];
  read: WorldReader;
  from: Standing;
  words: Words;
  times: WorkTimes;
  /** It works now and will fail again: nothing is tried, places are opened and looked at. */
  isQuiet?: boolean;
}

export interface TicketWalk {
  problem: WalkProblem;
  /** What is looked at when the place is opened: each part that may be at fault there. */
  looksAt: (place: number) => readonly LookedAtPart[];
  /** What is written down of a step that ended so. */
  recordsOf: (action: WalkAction, ending: PlanBranch) => readonly WalkRecord[];
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
  const { drawing, request, worlds, words, times } = given;
  const saying = { words, nameNode: nameNodesOf(drawing, words), times };
  const places = placesOf(worlds, (fault) => openedPlace(fault, drawing, saying));
  if (places.length === 0) return null;
  const suspectTrunks = new Set(places.flatMap(({ where }) => where.trunk || []));
  if (suspectTrunks.size === 0)
    for (const { trunk } of request.observations ?? []) suspectTrunks.add(trunk);
  const trunks = [...new Set([...suspectTrunks, given.from.trunk])].filter((trunk) => trunk !== '');
  const spots = walkSpots(drawing, trunks, times);
  const [main = 'announcement', ...others] = reportedFunctions(request.observations);
  const on = { drawing, trunks: [...suspectTrunks], read: given.read, saying };
  const pose = (checks: SiteCheck[], onceOpen: SeenOnceOpen, isCertain: boolean) =>
    posed({ given, places, spots, checks, onceOpen, isCertain });
  const whenOpen: SeenOnceOpen = (key, where) => seenOnceOpen(key, where, main);
  const whenShort: SeenOnceOpen = (key, where) => shortSeenOnceOpen(key, where, main);
  const ofShorts = shareOf(worlds, (faults) => faults.some(isShort));
  const isMostlySingle = shareOf(worlds, (faults) => faults.length === 1) >= NEARLY_ALL;
  const single = () =>
    ofShorts < NEARLY_ALL
      ? singleFaults(pose(siteChecks(on, [main]), whenOpen, true), isBreak)
      : singleFaults(pose(shortChecks(on, main), whenShort, true), isShort);
  const alone = isMostlySingle && !given.isQuiet ? single() : null;
  const isPath = alone !== null && walkPlanner(alone.problem).isExact;
  const all = () => {
    if (given.isQuiet) return pose([], whenOpen, false);
    const functions = [...new Set<FunctionName>([main, ...others, 'lamp'])];
    const checks = [...siteChecks(on, functions), ...(ofShorts > 0 ? shortChecks(on, main) : [])];
    return pose(checks, ofShorts > 0.5 ? whenShort : whenOpen, false);
  };
  const { problem, leftOut, checks } = isPath ? alone : all();
  const looks = looksByPlace(worlds);
  const looksAt = (at: number) => looks.get(places[at]?.key ?? '') ?? [];
  const recordsOf: TicketWalk['recordsOf'] = (action, ending) =>
    recorded(
      { problem, checks, looksAt, faults: places.map(({ fault }) => fault) },
      action,
      ending,
    );
  return { problem, leftOut, looksAt, recordsOf, spots: standings(drawing, trunks) };
}

function looksByPlace(worlds: WalkGiven['worlds']): ReadonlyMap<string, LookedAtPart[]> {
  const byPlace = new Map<string, Map<string, LookedAtPart>>();
  for (const fault of worlds.flatMap(({ faults }) => faults)) {
    const look = lookFor(fault);
    const key = placeKey(fault);
    const looks = byPlace.get(key) ?? new Map<string, LookedAtPart>();
    byPlace.set(key, looks.set(JSON.stringify(look), look));
  }
  return new Map([...byPlace].map(([key, looks]) => [key, [...looks.values()]]));
}

interface Recordable extends Pick<TicketWalk, 'problem' | 'looksAt'> {
  checks: readonly SiteCheck[];
  /** One of each place. */
  faults: readonly WorldFault[];
}

function recorded(
  { problem, checks, looksAt, faults }: Recordable,
  action: WalkAction,
  { isFound, outcome, next }: PlanBranch,
): readonly WalkRecord[] {
  const check = action.kind === 'check' ? action.check : problem.places[action.place]?.check;
  const seen =
    check === undefined || outcome === null ? [] : (checks[check]?.records(outcome) ?? []);
  if (action.kind === 'check') return seen;
  const at = faults[action.place];
  if (at === undefined) return seen;
  const { place, component } = at;
  const found: WalkRecord = { kind: 'finding', place, component, mode: null };
  if (action.kind === 'remake') {
    const check = remadeCheck(placeKey(at));
    return next === 'done'
      ? [found, { kind: 'mending' }]
      : [{ kind: 'step', check, ending: STILL_FAILS }];
  }
  if (isFound) return [found];
  const sound = looksAt(action.place).map((look) => ({ kind: 'look' as const, ...look }));
  return [...sound.map((look): WalkRecord => ({ ...look, seen: 'sound' })), ...seen];
}

type SeenOnceOpen = (key: string, where: Standing) => string;

const isShort = ({ mode }: WorldFault) => mode.startsWith('short-');
const isBreak = (fault: WorldFault) =>
  fault.place.kind !== 'station' && fault.mode !== 'resistive' && !isShort(fault);

/** Of what may be at fault, the share in which faults are such. */
function shareOf(
  worlds: WalkGiven['worlds'],
  isSuch: (faults: readonly WorldFault[]) => boolean,
): number {
  const faulty = worlds.filter(({ faults }) => faults.length > 0);
  const sum = (list: typeof faulty) => list.reduce((all, { probability }) => all + probability, 0);
  return sum(faulty.filter(({ faults }) => isSuch(faults))) / sum(faulty);
}

function placesOf(
  worlds: WalkGiven['worlds'],
  open: (fault: WorldFault) => OpenedPlace,
): OpenedPlace[] {
  const places = new Map<string, OpenedPlace>();
  for (const { faults } of worlds)
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

interface Posed extends Pick<WalkWorlds, 'leftOut' | 'faultsOf'> {
  problem: WalkProblem;
  /** As the problem has them. */
  checks: readonly SiteCheck[];
}

function posed(of: {
  given: WalkGiven;
  places: readonly OpenedPlace[];
  spots: WalkSpots;
  checks: readonly SiteCheck[];
  onceOpen: SeenOnceOpen;
  isCertain: boolean;
}): Posed {
  const { given, places, spots, isCertain, onceOpen } = of;
  const signOf = (fault: WorldFault) => {
    const alone = [fault];
    const seen = of.checks.map(({ outcome }) => outcome(alone)).join('');
    return `${missedByTechnician(fault, given.errors)} ${seen}`;
  };
  const { worlds, faultsOf, leftOut } = walkWorlds(given, places, signOf);
  const suspects = worlds.map(({ faults, kinds = [] }) => faultsOf(faults, kinds));
  const seen = new Set(places.map(({ key, where }) => onceOpen(key, where)));
  const checks = tellingChecks(of.checks, suspects, seen);
  const checkAt = new Map(checks.map(({ key }, i) => [key, i]));
  const sound = seenSound(given.request);
  const problem: WalkProblem = {
    walkMinutes: spots.minutes,
    startSpot: spots.spotOf(given.from),
    places: places.map(({ key, where, fault: _fault, ...place }, at) => {
      const missedChance = (kind: number) => {
        const [fault] = faultsOf([at], [kind]);
        return fault === undefined ? 0 : missedByTechnician(fault, given.errors);
      };
      return {
        ...place,
        spot: spots.spotOf(where),
        check: checkAt.get(onceOpen(key, where)),
        isSeenSound: sound.has(key),
        ...(!isCertain && { missedChance, falseChance: FALSE_CHANCE }),
      };
    }),
    checks: checks.map((check) =>
      asWalkCheck(check, spots.spotOf(check.where), isCertain, faultsOf),
    ),
    worlds,
  };
  return { problem, leftOut, faultsOf, checks };
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

/** The problem with nothing but single faults of a kind, where nobody looked yet, if they are nearly all there is. */
function singleFaults(
  { problem, leftOut, faultsOf, checks }: Posed,
  isOfKind: (fault: WorldFault) => boolean,
): Posed | null {
  const worlds = problem.worlds.filter(({ faults, kinds = [] }) => {
    const [fault, ...more] = faultsOf(faults, kinds);
    const isSeen = faults.some((place) => problem.places[place]?.isSeenSound);
    return fault !== undefined && more.length === 0 && !isSeen && isOfKind(fault);
  });
  const kept = worlds.reduce((sum, { probability }) => sum + probability, 0);
  if ((1 - leftOut) * kept < NEARLY_ALL) return null;
  const alone = worlds.map((world) => ({ ...world, probability: world.probability / kept }));
  const places = problem.places.map((place) => ({ ...place, isSeenSound: false }));
  return {
    problem: { ...problem, places, worlds: alone },
    leftOut: 1 - (1 - leftOut) * kept,
    faultsOf,
    checks,
  };
}
