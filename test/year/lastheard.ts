import type { FunctionName, LocateRequest } from '#app/locator/index.js';
import { probableWorlds } from '#app/locator/worlds/index.js';
import { ticketWalk } from '#app/walks/ticket-walk.js';
import type { SiteCheck } from '#app/walks/walk-checks.js';
import { neededWorlds, reportedPoints } from '#app/walks/walk-needed.js';
import { walkParts } from '#app/walks/walk-parts.js';
import { rememberedReader } from '#app/walks/walk-reader.js';
import { goByWhatWasSeen } from '#app/walks/walk-seen.js';
import { shortChecks, siteChecks } from '#app/walks/walk-site-checks.js';
import { FUNCTIONS } from '#app/plan/functions.js';
import { nameNodesOf } from '#app/sites/drawing.js';
import type { AsBuilt } from '#app/sites/as-built.js';
import { type WalkAction, walkPlanner, type WalkState } from '#app/walk/index.js';
import { foundNothing, spared, type Way, type Worked, workedOnSite } from './habits.js';
import { Known } from './known.js';
import {
  isRestored,
  OnSite,
  type Part,
  partsUpFrom,
  placeOf,
  searchAll,
  TIMES,
  WORDS,
} from './on-site.js';
import { readerOf, type Trouble } from './troubles.js';

/** As the service has it: so deep, then what was seen is entered and the plan made again; so often at most. */
const STEPS_OF_A_PLAN = 4;
const MOST_PLANS = 20;

/** By Lastheard's advice: what the office can look at, the parts to carry, then the walk. */
export const byAdvice: Way = (trouble) => worked(trouble, true);

/** The same, but nobody is asked anything more than was told in the call. */
export const byAdviceAskingNobody: Way = (trouble) => worked(trouble, false);

function worked(trouble: Trouble, asks: boolean): Worked {
  if (trouble.family === 'nothing' && !asks) return foundNothing(trouble);
  const known = new Known(trouble);
  if (asks) known.askOffice();
  const { officeMinutes, faults } = known;
  if (trouble.family === 'nothing') return { ...foundNothing(trouble), officeMinutes };
  if (isRestored(trouble, faults, readerOf(trouble.truth))) return spared(officeMinutes);
  const { worlds } = probableWorlds(known.request);
  const { parts } = walkParts(worlds, trouble.drawing, TIMES);
  const work = new OnSite(trouble, faults, new Set(parts.map(({ id }) => id)));
  for (let plan = 0; plan < MOST_PLANS && !work.isRestored; plan++) walk(known, work);
  searchAll(work, (part) => known.wasOpen(part), undefined);
  return workedOnSite(work, officeMinutes);
}

/** Follows the walk's plan for its steps, or until something is mended, or seen that it was not made for. */
function walk(known: Known, work: OnSite): void {
  const { trouble, request } = known;
  const { drawing, truth } = trouble;
  const read = rememberedReader(request);
  const possible = probableWorlds(request, undefined, known.expected).worlds;
  const walked = { drawing, read, words: WORDS, times: TIMES };
  const found = goByWhatWasSeen(possible, known.seen, walked);
  const worlds = neededWorlds(found, read, reportedPoints(request));
  const given = { drawing, request, worlds, read, from: work.standing, words: WORDS, times: TIMES };
  const planned = ticketWalk(given);
  if (planned === null) return;
  const { problem } = planned;
  const checks = checksByLabel(truth, request);
  const parts = partsByLabel(drawing);
  const planner = walkPlanner(problem);
  let reached = 1;
  let state: WalkState | null = planner.start;
  for (let step = 0; step < STEPS_OF_A_PLAN && state !== null && state.sets.length > 0; step++) {
    const { action, taken } = planner.next(state, reached);
    const seen = take(action);
    if (seen.isFound) return;
    const branch = taken.branches.find(
      ({ isFound, outcome }) => !isFound && (outcome === null || outcome === seen.outcome),
    );
    state = branch?.state ?? null;
    reached *= branch?.probability ?? 1;
  }

  function take(one: WalkAction): { isFound: boolean; outcome: number | null } {
    if (one.kind === 'check') {
      const check = checks.get(problem.checks[one.check]!.label)!;
      const outcome = work.check(check);
      known.heardAt(check, outcome);
      return { isFound: false, outcome };
    }
    const { label, check } = problem.places[one.place]!;
    const part = parts.get(label)!;
    if (one.kind === 'remake') {
      work.remake(part);
      known.mended(part, work.faults);
      return { isFound: true, outcome: null };
    }
    const isFound = work.open(part);
    if (isFound) known.mended(part, work.faults);
    else known.foundSound(part);
    if (isFound || check === undefined) return { isFound, outcome: null };
    const beside = checks.get(problem.checks[check]!.label)!;
    const outcome = work.outcomeOf(beside);
    known.heardAt(beside, outcome);
    return { isFound, outcome };
  }
}

/** All that may be checked on a site, as it truly is. */
function checksByLabel(
  truth: AsBuilt,
  { observations = [] }: LocateRequest,
): Map<string, SiteCheck> {
  const failed = observations.filter(({ outcome }) => outcome !== 'works');
  const times = (name: FunctionName) => failed.filter((one) => one.function === name).length;
  const functions = [...FUNCTIONS].sort((a, b) => times(b) - times(a));
  const on = {
    drawing: truth,
    trunks: truth.trunks.map(({ trunk }) => trunk),
    read: readerOf(truth),
    saying: { words: WORDS, nameNode: nameNodesOf(truth, WORDS), times: TIMES },
  };
  const all = [...siteChecks(on, functions), ...shortChecks(on, 'announcement')];
  return new Map(all.map((check) => [check.label, check]));
}

function partsByLabel(drawing: AsBuilt): Map<string, Part> {
  const parts = drawing.trunks.flatMap(({ trunk, nodes }) =>
    nodes.flatMap(({ node }) => partsUpFrom(drawing, { trunk, node })),
  );
  return new Map(parts.map((part) => [placeOf(part, drawing).label, part]));
}
