import type { ErrorRates, ExpectedFaults, LocateRequest } from '../locator/index.js';
import {
  type CarriedPart,
  type PlanBranch,
  type PlanNext,
  planWalk,
  type WalkAction,
  type WalkProblem,
} from '../walk/index.js';
import { probableWorlds } from '../locator/worlds/index.js';
import { type NameNode, planInText, type Words } from '../words/index.js';
import { nameNodesOf } from '../sites/drawing.js';
import type { WhileItFails } from '../locating/while-it-fails.js';
import { USUAL_WORK_TIMES, type WorkTimes } from '../work-times/work-times.js';
import { ticketWalk, type TicketWalk } from './ticket-walk.js';
import type { LookedAtPart } from './walk-looks.js';
import type { EndedStep } from '../tickets/ticket-log.js';
import { goByWhatWasSeen } from './walk-seen.js';
import type { WalkRecord } from './walk-records.js';
import { neededWorlds, reportedPoints } from './walk-needed.js';
import { rememberedReader } from './walk-reader.js';
import { type PartsDrawing, walkParts } from './walk-parts.js';
import type { Standing } from './walk-place.js';
import type { WalkedDrawing } from './walk-spots.js';

/** The tree is cut here: what is seen by then goes to the ticket, and the plan is made again. */
const STEPS = 4;
const LEAST_CHANCE = 0.08;

export interface PosedWalk {
  drawing: WalkedDrawing & PartsDrawing;
  request: LocateRequest;
  /** Null or left out: what is known is gone by as it is. */
  whileItFails?: WhileItFails | null;
  /** Left out: the starting values. */
  errors?: ErrorRates;
  /** Left out: by the request's own rates. */
  expected?: ExpectedFaults;
  from: Standing;
  words: Words;
  /** Left out: the usual ones. */
  times?: WorkTimes;
  /** Endings of steps that are no evidence of the locator's, since the last mending. */
  seen?: readonly EndedStep[];
}

/** One thing to do, and what follows each way in which it can end. */
export interface WalkStep {
  kind: 'check' | 'open' | 'remake';
  words: string;
  where: Standing & { words: string };
  /** Of a place that is opened: what is looked at, as a look names it; null else, and where several things may be wrong there. */
  look: LookedAtPart | null;
  /** The same where it may be several. */
  looks: readonly LookedAtPart[];
  /** To go there and do it. */
  minutes: number;
  /** From before this step until every reported function works. */
  expectedMinutes: number;
  endings: WalkEnding[];
}

export interface WalkEnding {
  /** What is seen, in words. */
  seen: string;
  probability: number;
  then: 'go-on' | 'restored' | 'plan-again';
  /** What is to be written down of it. */
  records: readonly WalkRecord[];
  next: WalkStep | null;
}

export interface WalkAnswer {
  isExact: boolean;
  expectedMinutes: number;
  /** The deviation of the minutes, by where the fault turns out to be. */
  spreadMinutes: number;
  /** P(nothing that was said is due to a fault). */
  nothingAtFault: number;
  /** Share of what may be at fault that is not planned with. */
  leftOut: number;
  next: WalkStep | null;
  printed: string[];
  /** To prove every room of the trunks that were reported, once all works. */
  walkTestMinutes: number;
  parts: CarriedPart[];
  secondTripChance: number;
  neededTogether: { parts: string[]; chance: number }[];
}

/** The whole answer to a technician on site, from a ticket's evidence. Deterministic. */
export function planTicketWalk(question: PosedWalk): WalkAnswer {
  const { drawing, errors, expected, from, words, times = USUAL_WORK_TIMES } = question;
  const request = { ...question.request, ...question.whileItFails?.said };
  const isQuiet = question.whileItFails?.isQuiet === true;
  const read = rememberedReader(request);
  const { worlds: possible } = probableWorlds(request, errors, expected);
  const found = goByWhatWasSeen(possible, question.seen ?? [], { drawing, read, words, times });
  const worlds = neededWorlds(found, read, reportedPoints(request));
  const massOf = (list: typeof worlds) => list.reduce((sum, one) => sum + one.probability, 0);
  const nothing = massOf(worlds.filter(({ faults }) => faults.length === 0));
  const covered = massOf(worlds) - nothing;
  const walk = ticketWalk({ drawing, request, errors, worlds, read, from, words, times, isQuiet });
  if (walk === null) return nothingToDo(nothing, words);
  const plan = planWalk(walk.problem, { steps: STEPS, leastChance: LEAST_CHANCE });
  return {
    isExact: plan.isExact,
    expectedMinutes: plan.expectedMinutes,
    spreadMinutes: plan.spreadMinutes,
    nothingAtFault: nothing,
    leftOut: Math.max(0, 1 - ((1 - walk.leftOut) * covered) / (1 - nothing)),
    next: stepIn(walk, plan.first, nameNodesOf(drawing, words), words),
    printed: planInText(walk.problem, plan.first, words),
    walkTestMinutes: times.walkTestRoom * roomsToProve(drawing, request),
    ...walkParts(worlds, drawing, times),
  };
}

function roomsToProve(
  drawing: WalkedDrawing,
  { observations = [] }: Pick<LocateRequest, 'observations'>,
): number {
  const trunks = drawing.trunks.filter((one) =>
    observations.some(({ trunk, outcome }) => trunk === one.trunk && outcome !== 'works'),
  );
  return trunks.flatMap(({ nodes }) => nodes.filter(({ kind }) => kind === 'station')).length;
}

function nothingToDo(nothingAtFault: number, { walk }: Words): WalkAnswer {
  return {
    isExact: false,
    expectedMinutes: 0,
    spreadMinutes: 0,
    nothingAtFault,
    leftOut: 0,
    next: null,
    printed: [walk.nothingSuspect],
    walkTestMinutes: 0,
    parts: [],
    secondTripChance: 0,
    neededTogether: [],
  };
}

function stepIn(
  walk: TicketWalk,
  next: PlanNext,
  nameNode: NameNode,
  words: Words,
): WalkStep | null {
  if (typeof next === 'string') return null;
  const { problem, spots } = walk;
  const { action, label, spot, minutes, expectedMinutes, branches } = next;
  const where = spots[spot] ?? { trunk: '', node: null };
  const looks = action.kind === 'check' ? [] : walk.looksAt(action.place);
  const at = where.node === null ? words.headEnd : nameNode(where.trunk, where.node);
  return {
    kind: action.kind,
    words: label,
    where: { ...where, words: at },
    look: action.kind === 'open' && looks.length === 1 ? (looks[0] ?? null) : null,
    looks,
    minutes,
    expectedMinutes,
    endings: branches.map((branch) => ({
      seen: seenIn(problem, action, branch, words.walk),
      probability: branch.probability,
      then: thenOf(branch.next),
      records: walk.recordsOf(action, branch),
      next: stepIn(walk, branch.next, nameNode, words),
    })),
  };
}

function thenOf(next: PlanNext): WalkEnding['then'] {
  if (next === 'done') return 'restored';
  return next === 'plan-again' ? 'plan-again' : 'go-on';
}

function seenIn(
  { checks, places }: WalkProblem,
  action: WalkAction,
  { isFound, outcome, next }: PlanBranch,
  { allWorks, stillFails, atFault, sound, soundAnd }: Words['walk'],
): string {
  const check = action.kind === 'check' ? action.check : places[action.place]?.check;
  const seen = check === undefined || outcome === null ? null : checks[check]?.outcomes[outcome];
  if (action.kind === 'check') return seen ?? '';
  if (action.kind === 'remake') return next === 'done' ? allWorks : stillFails;
  if (isFound) return atFault;
  return seen == null ? sound : soundAnd(seen);
}
