import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { comparePlaces } from '../posterior/order.js';
import { impossibleEvidence } from '../impossible-evidence.js';
import { DEFAULT_ERROR_RATES, type ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import { checkExpectedFaults } from '../request/check-expected-faults.js';
import { readRequest } from '../request/read-request.js';
import { quietness } from '../posterior/quietness.js';
import type { LocateRequest } from '../request/locate-request.js';
import { hasPoints, quietSite } from '../sweep/quiet-site.js';
import { joinTrunks, type SiteModel, siteModel } from '../sweep/site.js';
import { sweepUp } from '../sweep/sweep-trunk.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import { findWorlds } from './find-worlds.js';
import type { NamedFault } from './named-fault.js';
import type { ProbableWorld, ProbableWorlds, WorldFault } from './probable-world.js';
import { type SplitFault, splitModesOf } from './split-modes.js';
import { logWeight, type WorldSite, worldSite } from './weigh-site.js';
import { worldReader } from './world-answers.js';
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
 * Worlds in which all is well that was complained of weigh as little as such complaints do.
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
  const logAll = logEvidenceOf(site);
  if (logAll === -Infinity) throw impossibleEvidence(checked, errors, expected);
  const logEvidence = logAll + logFalseAlarmFactor(site, logAll);
  const besides = [worldReadings(site), worldDisconnections(checked, errors)].filter(
    (log) => log !== null,
  );
  const ifQuiet = logIfQuiet(site, checked);
  const logBesides = (faults: readonly WorldFault[]) =>
    besides.reduce((sum, log) => sum + log(faults), ifQuiet(faults));
  const heard = { ...checked, readings: [] };
  const world = worldSite(
    besides.length > 0 ? siteModel(heard, errors, expected, { wholeOnly: true }) : site,
    checked,
  );
  // What was heard alone may rank low what a reading then speaks for.
  const found = findWorlds(world, besides.length > 0 ? READ_FROM * most : most);
  const worlds = found
    .flatMap((named) => splitWorld(world, named))
    .map((one) => reweighed(one, logBesides(one.faults), logEvidence))
    .sort(compareWorlds)
    .slice(0, most);
  const covered = worlds.reduce((sum, { probability }) => sum + probability, 0);
  return {
    logEvidence: logEvidence + site.logSeen,
    worlds,
    uncovered: Math.max(0, 1 - covered),
  };
}

function logEvidenceOf(site: SiteModel): number {
  const sweeps = site.trunks.map(sweepUp);
  return joinTrunks(
    site,
    sweeps.map(({ port }) => port.logEvidence),
  ).logEvidence;
}

/** Nobody complains of nothing, or hardly ever: by how much that lessens the evidence's mass. */
function logFalseAlarmFactor(site: SiteModel, logAll: number): number {
  if (!hasPoints(site) || site.falseAlarmRatio === 1) return 0;
  const logQuiet = logEvidenceOf(quietSite(site));
  return quietness(logQuiet, logAll, site.falseAlarmRatio).logFactor;
}

/** log of how much rarer the complaint is, if all is well in this world that was complained of. */
function logIfQuiet(
  site: SiteModel,
  { trunks, exposureDays, observations = [] }: LocateRequest,
): (faults: readonly WorldFault[]) => number {
  const points = observations.filter(
    ({ outcome, disconnectedBelow }) => outcome !== 'works' && disconnectedBelow === undefined,
  );
  if (points.length === 0 || site.falseAlarmRatio === 1) return () => 0;
  const read = worldReader({ trunks, exposureDays });
  return (faults) => {
    const { condition } = read({ faults });
    const isQuiet = points.every(
      ({ trunk, node, function: name }) => condition(trunk, node, name) === 'good',
    );
    return isQuiet ? ln(site.falseAlarmRatio) : 0;
  };
}

function reweighed(world: ProbableWorld, log: number, logEvidence: number): ProbableWorld {
  const both = world.logWeight + log;
  return { ...world, logWeight: both, probability: exp(both - logEvidence) };
}

/** Every component and mode that the named faults can be. */
function splitWorld(world: WorldSite, named: readonly NamedFault[]): ProbableWorld[] {
  return everyChoice(named.map(componentsOf)).flatMap((faults) => {
    const log = logWeight(world, faults);
    if (log === -Infinity) return [];
    return everyChoice(faults.map((fault) => splitModesOf(world.site, fault))).map((choice) =>
      asWorld(choice, log),
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

/** Its probability is yet to come. */
function asWorld(choice: readonly SplitFault[], log: number): ProbableWorld {
  const own = choice.reduce((sum, { share }) => sum + ln(share), log);
  return {
    faults: choice.map(({ fault }) => fault).sort(compareFaults),
    logWeight: own,
    probability: 0,
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
