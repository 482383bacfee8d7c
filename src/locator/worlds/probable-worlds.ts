import { comparePlaces } from '../posterior/order.js';
import { impossibleEvidence } from '../impossible-evidence.js';
import { DEFAULT_ERROR_RATES, type ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import { checkExpectedFaults } from '../request/check-expected-faults.js';
import { readRequest } from '../request/read-request.js';
import { joinTrunks, siteModel } from '../sweep/site.js';
import { sweepUp } from '../sweep/sweep-trunk.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import { findWorlds } from './find-worlds.js';
import type { NamedFault } from './named-fault.js';
import type { ProbableWorld, ProbableWorlds, WorldFault } from './probable-world.js';
import { type SplitFault, splitModesOf } from './split-modes.js';
import { logWeight, type WorldSite, worldSite } from './weigh-site.js';
import { worldDisconnections } from './world-disconnections.js';
import { worldReadings } from './world-readings.js';

export const MOST_WORLDS = 200;
/** With readings so many times the worlds kept are weighed. */
const READ_FROM = 4;
/** Weights nearer than this are one weight for sorting. */
const RESOLUTION = 1e9;

/**
 * The most probable worlds of a located request, each with its exact weight, and the mass that they leave out. Single
 * faults are all tried; pairs and triples as far as their parts are probable. Readings, and what was told while a cable was
 * disconnected, are weighed with everything that a world does not name taken as ok, which is nearly exact while faults are rare.
 *
 * @param request, errors, expected as `locate` takes them
 * @param most how many worlds to keep
 * @throws InvalidLocateRequest, ImpossibleEvidence as `locate` does
 */
export function probableWorlds(
  request: unknown,
  errors: ErrorRates = DEFAULT_ERROR_RATES,
  expected?: ExpectedFaults,
  most = MOST_WORLDS,
): ProbableWorlds {
  const checked = readRequest(request);
  if (expected) checkExpectedFaults(expected, checked);
  const site = siteModel(checked, errors, expected);
  const sweeps = site.trunks.map(sweepUp);
  const { logEvidence } = joinTrunks(
    site,
    sweeps.map(({ port }) => port.logEvidence),
  );
  if (logEvidence === -Infinity) throw impossibleEvidence(checked, errors, expected);
  const besides = [worldReadings(site), worldDisconnections(checked, errors)].filter(
    (log) => log !== null,
  );
  const logBesides = (faults: readonly WorldFault[]) =>
    besides.reduce((sum, log) => sum + log(faults), 0);
  const heard = { ...checked, readings: [] };
  const world = worldSite(
    besides.length > 0 ? siteModel(heard, errors, expected, { wholeOnly: true }) : site,
    checked,
  );
  // What was heard alone may rank low what a reading then speaks for.
  const found = findWorlds(world, besides.length > 0 ? READ_FROM * most : most);
  const worlds = found
    .flatMap((named) => splitWorld(world, named, logEvidence))
    .map((one) => (besides.length > 0 ? reweighed(one, logBesides(one.faults), logEvidence) : one))
    .sort(compareWorlds)
    .slice(0, most);
  const covered = worlds.reduce((sum, { probability }) => sum + probability, 0);
  return { logEvidence, worlds, uncovered: Math.max(0, 1 - covered) };
}

function reweighed(world: ProbableWorld, log: number, logEvidence: number): ProbableWorld {
  const both = world.logWeight + log;
  return { ...world, logWeight: both, probability: Math.exp(both - logEvidence) };
}

/** Every component and mode that the named faults can be. */
function splitWorld(
  world: WorldSite,
  named: readonly NamedFault[],
  logEvidence: number,
): ProbableWorld[] {
  return everyChoice(named.map(componentsOf)).flatMap((faults) => {
    const log = logWeight(world, faults);
    if (log === -Infinity) return [];
    return everyChoice(faults.map((fault) => splitModesOf(world.site, fault))).map((choice) =>
      asWorld(choice, log, logEvidence),
    );
  });
}

function componentsOf(fault: NamedFault): NamedFault[] {
  if (fault.at !== 'span') return [fault];
  return [0, 1, 2].map((component) => ({ ...fault, component }));
}

/** One of each list, in every way. */
function everyChoice<T>(lists: readonly (readonly T[])[]): T[][] {
  return lists.reduce<T[][]>(
    (choices, list) => choices.flatMap((choice) => list.map((one) => [...choice, one])),
    [[]],
  );
}

function asWorld(choice: readonly SplitFault[], log: number, logEvidence: number): ProbableWorld {
  const own = choice.reduce((sum, { share }) => sum + Math.log(share), log);
  return {
    faults: choice.map(({ fault }) => fault).sort(compareFaults),
    logWeight: own,
    probability: Math.exp(own - logEvidence),
  };
}

function compareFaults(a: WorldFault, b: WorldFault): number {
  return (
    comparePlaces(a.place, b.place) ||
    compareIds(a.component, b.component) ||
    compareIds(a.mode, b.mode)
  );
}

function compareWorlds(a: ProbableWorld, b: ProbableWorld): number {
  const [left, right] = [a, b].map(({ logWeight: log }) => Math.round(log * RESOLUTION));
  if (left !== right) return (right ?? 0) - (left ?? 0);
  for (let k = 0; k < Math.min(a.faults.length, b.faults.length); k++) {
    const [one, other] = [a.faults[k], b.faults[k]];
    const order = one && other ? compareFaults(one, other) : 0;
    if (order !== 0) return order;
  }
  return a.faults.length - b.faults.length;
}
