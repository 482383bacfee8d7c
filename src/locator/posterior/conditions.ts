/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { MAX_CORES } from '../../plan/cores.js';
import { MAX_MODES } from '../../plan/plan.js';
import { DEAD_FEED, type FeedClasses } from '../sweep/feed-classes.js';
import type { NodeMasses } from '../sweep/descend-node.js';
import type { NodeSlot } from '../sweep/trunk-tables.js';
import type { SiteModel } from '../sweep/site.js';
import type { StationChances } from '../sweep/station-classes.js';
import type { System } from '../sweep/system.js';
import { zeroTable } from '../numbers/zero-table.js';

/** Posterior of one station: of its classes of modes, of its short, and of each function's condition. */
export interface StationPosterior {
  readonly classes: Float64Array;
  short: number;
  /** P(good), P(weak), P(dead) of each function, at function * 3. */
  readonly conditions: Float64Array;
}

// Scratch of one station in one context, large enough for any plan: a reach more takes a core more.
const IN_CONTEXT = new Float64Array(MAX_MODES * 3);

/** Mass in which a function that needs a reach is good, weak or dead, by reach needed * 3. */
const BY_NEED = new Float64Array(MAX_CORES * 3);

/** The classes of feed are 0 where nothing arrives, and of each reach the full one and, where feeds get weak, the weak one. */
function shareByNeed(feeds: Float64Array, { most, isWeakened }: FeedClasses): void {
  const step = isWeakened ? 2 : 1;
  let good = 0;
  let weak = 0;
  for (let reach = most; reach > 0; reach--) {
    const full = step * (reach - 1) + 1;
    BY_NEED[reach * 3] = good += feeds[full]!;
    BY_NEED[reach * 3 + 1] = weak += isWeakened ? feeds[full + 1]! : 0;
  }
  let dead = feeds[DEAD_FEED]!;
  for (let reach = 1; reach <= most; reach++) {
    BY_NEED[reach * 3 + 2] = dead;
    const full = step * (reach - 1) + 1;
    dead += feeds[full]! + (isWeakened ? feeds[full + 1]! : 0);
  }
}

/** Adds BY_NEED by function: where the station leaves it working and, as dead, where it does not. */
function addConditions(
  conditions: Float64Array,
  func: number,
  reachNeeded: number,
  works: number,
  fails: number,
): void {
  const from = reachNeeded * 3;
  const to = func * 3;
  const good = BY_NEED[from]!;
  const weak = BY_NEED[from + 1]!;
  const dead = BY_NEED[from + 2]!;
  conditions[to]! += works * good;
  conditions[to + 1]! += works * weak;
  conditions[to + 2]! += works * dead + fails * (good + weak + dead);
}

const FEEDS = new Float64Array(2 * MAX_CORES);

/** Fills FEEDS with P(class of feed) of one context, times the weights of the feeds. */
function weighFeeds(
  masses: Float64Array,
  classes: Uint8Array,
  at: number,
  contexts: number,
  chance: number,
  weights: Float64Array | null,
  weightsAt: number,
): number {
  let whole = 0;
  FEEDS.fill(0);
  for (let feed = 0; feed < classes.length; feed++) {
    const weight = weights ? chance * weights[weightsAt + feed]! : chance;
    const mass = weight * masses[at + feed * contexts]!;
    FEEDS[classes[feed]!]! += mass;
    whole += mass;
  }
  return whole;
}

/** Functions by their places, from the first to the one before `end`. */
interface Functions {
  readonly first: number;
  readonly end: number;
}

/** One station in one context: its classes of modes are added up, and its functions' conditions set. */
function inOneContext(
  { feedClasses, stationClasses }: System,
  { classes: priors, enabled, disabled }: StationChances,
  likelihood: Float64Array | null,
  { feeds }: NodeMasses,
  of: Uint8Array,
  { at, contexts }: NodeSlot,
  context: number,
  classes: Float64Array,
  conditions: Float64Array,
  { first, end }: Functions,
): void {
  const { reachNeeded } = feedClasses;
  const from = at * of.length + context;
  conditions.fill(0, first * 3, end * 3);
  if (!likelihood) {
    const whole = weighFeeds(feeds, of, from, contexts, 1, null, 0);
    shareByNeed(FEEDS, feedClasses);
    for (let k = 0; k < stationClasses.count; k++) classes[k]! += priors[k]! * whole;
    for (let f = first; f < end; f++)
      addConditions(conditions, f, reachNeeded[f]!, enabled[f]!, disabled[f]!);
    return;
  }
  for (let k = 0; k < stationClasses.count; k++) {
    const row = (context * stationClasses.count + k) * of.length;
    classes[k]! += weighFeeds(feeds, of, from, contexts, priors[k]!, likelihood, row);
    shareByNeed(FEEDS, feedClasses);
    for (let f = first; f < end; f++) {
      const works = stationClasses.disables[k]! & (1 << f) ? 0 : 1;
      addConditions(conditions, f, reachNeeded[f]!, works, 1 - works);
    }
  }
}

/** What the posterior of a station is made of, in its site. */
export interface StationAt {
  readonly site: Pick<SiteModel, 'system' | 'headEnd'>;
  readonly station: StationChances;
  readonly likelihood: Float64Array | null;
  readonly masses: NodeMasses;
  readonly feedClasses: Uint8Array;
  readonly slot: NodeSlot;
  readonly live: Int32Array;
  readonly zone: number;
}

/** Adds to `classes` and to the conditions of some functions; the mass of the station's short is returned. */
function addStation(
  { site, station, likelihood, masses, feedClasses, slot, live, zone }: StationAt,
  classes: Float64Array,
  conditions: Float64Array,
  some: Functions,
): number {
  const { system, headEnd } = site;
  const { count } = system.stationClasses;
  let short = 0;
  for (const context of live) {
    const group = (zone * headEnd.count + (context % headEnd.count)) * headEnd.functions;
    inOneContext(
      system,
      station,
      likelihood,
      masses,
      feedClasses,
      slot,
      context,
      classes,
      IN_CONTEXT,
      some,
    );
    const dead = context * count * feedClasses.length + DEAD_FEED;
    const shorted =
      station.short * (likelihood ? likelihood[dead]! : 1) * masses.shorted[slot.at + context]!;
    short += shorted;
    for (let f = some.first; f < some.end; f++) {
      const enabled = headEnd.enabled[group + f]!;
      const good = IN_CONTEXT[f * 3]!;
      const weak = IN_CONTEXT[f * 3 + 1]!;
      const deadHere = IN_CONTEXT[f * 3 + 2]! + shorted;
      conditions[f * 3]! += enabled * good;
      conditions[f * 3 + 1]! += enabled * weak;
      conditions[f * 3 + 2]! +=
        enabled * deadHere + headEnd.disabled[group + f]! * (good + weak + deadHere);
    }
  }
  return short;
}

/**
 * Weighs each combination of head-end group, station mode and feed by its posterior, and adds it to the condition that
 * each function has in it (fault model, section 3). All sums are of positive terms.
 */
export function stationPosterior(at: StationAt): StationPosterior {
  const { system, headEnd } = at.site;
  const classes = zeroTable(system.stationClasses.count);
  const conditions = zeroTable(headEnd.functions * 3);
  const short = addStation(at, classes, conditions, { first: 0, end: headEnd.functions });
  return { classes, short, conditions };
}

/** Nobody reads the classes of these. */
const UNREAD = new Float64Array(MAX_MODES * 3);

/** P(good), P(weak), P(dead) of some functions, as stationPosterior has them, written to their places. */
export function setConditions(at: StationAt, conditions: Float64Array, some: Functions): void {
  conditions.fill(0, some.first * 3, some.end * 3);
  addStation(at, UNREAD, conditions, some);
}
