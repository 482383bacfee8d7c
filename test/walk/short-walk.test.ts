import { describe, expect, it } from '@jest/globals';
import { planTicketWalk } from '#app/walks/plan-ticket-walk.js';
import { ticketWalk } from '#app/walks/ticket-walk.js';
import { neededWorlds, reportedPoints } from '#app/walks/walk-needed.js';
import { rememberedReader } from '#app/walks/walk-reader.js';
import { probableWorlds } from '#app/locator/worlds/index.js';
import { USUAL_WORK_TIMES } from '#app/work-times/work-times.js';
import { pathOptimum, prepareWalk, rollout, walkPlanner } from '#app/walk/index.js';
import { asPath } from '#app/walk/as-path.js';
import { exhaustiveOptimum } from './exhaustive-optimum.js';
import { policyMinutes } from './policy-minutes.js';
import { CONTRADICTED, type Line, line } from './shorted-line.js';

function walkOf(of: Line) {
  const { drawing, request, words } = line(of);
  const found = probableWorlds(request).worlds;
  const read = rememberedReader(request);
  const worlds = neededWorlds(found, read, reportedPoints(request));
  const from = { trunk: '', node: null };
  const walk = ticketWalk({ drawing, request, worlds, read, words, from, times: USUAL_WORK_TIMES });
  return walk!.problem;
}

describe('a short on an unbranched trunk', () => {
  it('is halved by the exact optimum: over intervals, and over everything that can be done (1 and 2 rooms)', () => {
    for (const rooms of [1, 2]) {
      const problem = walkOf({ rooms });
      const planner = walkPlanner(problem);
      expect(planner.isExact).toBe(true);
      expect(planner.next(planner.start).minutes).toBeCloseTo(exhaustiveOptimum(problem), 9);
    }
  });

  it('looking ahead stays within 1.02 of it (12 rooms)', () => {
    const prepared = prepareWalk(walkOf({ rooms: 12 }));
    const path = asPath(prepared);
    expect(path).not.toBeNull();
    const ahead = policyMinutes(prepared, (_, state) => rollout(prepared, state).action);
    const ratio = ahead / pathOptimum(path!).minutes;
    expect(ratio).toBeGreaterThan(1 - 1e-9);
    expect(ratio).toBeLessThan(1.02);
  });

  it('begins in the middle of the line, not at its end', () => {
    const from = { trunk: '', node: null };
    const { isExact, next } = planTicketWalk({ ...line({ rooms: 12 }), from });
    expect(isExact).toBe(true);
    expect(next?.words).toMatch(/ Room [4-8]\b/);
  });
});

describe('a short and contradictory reports on forty rooms', () => {
  it('the next step weighs a bounded number of actions', () => {
    const problem = walkOf(CONTRADICTED);
    expect(problem.worlds.length).toBeGreaterThan(40);
    expect(problem.checks.length).toBeGreaterThan(40);
    const prepared = prepareWalk(problem);
    rollout(prepared, prepared.start);
    expect(prepared.work.weighed).toBeGreaterThan(1000);
    expect(prepared.work.weighed).toBeLessThan(40_000);
    expect(prepared.work.taken).toBeLessThan(1000);
  });
});
