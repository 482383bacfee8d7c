/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { modeSplit, splitModes } from '../posterior/mode-split.js';
import type { SweptStations } from '../sweep/sweep-site.js';
import { type ClassMasses, classMasses, NOT_IN_QUESTION } from './causes-by-class.js';
import { atStation, type Point } from './point.js';
import type { Trouble } from './trouble-answer.js';
import { silencingModes } from './troubles.js';
import { WeakFeeds } from './weak-feeds.js';
import { zeroTable } from '../numbers/zero-table.js';

/** A trouble of which the masses of all causes are wanted, listed or not. */
export interface CausesAsked {
  readonly point: Point;
  /** Whether a bad joint is told apart by where it is. */
  readonly areJointsApart: boolean;
}

export function causesAsked(point: Point, { causes }: Trouble): CausesAsked {
  return { point, areJointsApart: !causes.some(({ cause }) => cause.kind === 'weak-feed') };
}

/**
 * Posterior masses of what may be the cause of one trouble. They add up over outcomes as the evidence does: those of a
 * short's places are what each holds, and several may at once.
 */
export interface CauseMasses {
  /** Components on the way, modes of the head-end and of the station, the port, a feed that is weak, and nothing. */
  readonly alone: Float64Array;
  readonly short: number;
  /** By node, what the spans hold of it, and then what the stations do. */
  readonly held: Float64Array;
}

/**
 * By trouble, in the order of the list.
 *
 * @param taken what is taken from the quiet worlds, as a share of the evidence
 */
export function causeMasses(
  swept: SweptStations,
  troubles: readonly CausesAsked[],
  taken: number,
): CauseMasses[] {
  const byPoint = new Map<Point, CauseMasses>();
  for (const t of swept.site.trunks.keys()) {
    const mine = troubles.filter(({ point }) => point.trunk === t);
    if (mine.length === 0) continue;
    const points = mine.map(({ point }) => point);
    const feeds = new WeakFeeds(swept, t);
    for (const of of classMasses(swept, t, points))
      for (const own of mine)
        if (of.points.includes(own.point))
          byPoint.set(own.point, massesOf(swept, own, of, feeds, taken));
  }
  return troubles.map(({ point }) => byPoint.get(point)!);
}

function massesOf(
  swept: SweptStations,
  { point, areJointsApart }: CausesAsked,
  of: ClassMasses,
  feeds: WeakFeeds,
  taken: number,
): CauseMasses {
  const { tree, weights } = swept.site.trunks[point.trunk]!;
  const { plan, stationClasses } = swept.site.system;
  const here = atStation(swept, point, of.working);
  const joints =
    areJointsApart && here.weak > NOT_IN_QUESTION ? feeds.to(point, of.working, here.weak) : null;
  const alone: number[] = [of.noOutput, areJointsApart ? 0 : here.weak, here.good - taken];
  let at = 0;
  for (let n = point.node; n >= 0; n = tree.parent[n]!)
    for (let part = 0; part < 3; part++)
      alone.push(of.taken[n * 3 + part]! + (joints?.[at++] ?? 0));
  for (const [, mass] of silencingModes(swept, point)) alone.push(mass);
  const own = weights[point.node]!.station;
  const split = modeSplit(own, plan.stationModes, stationClasses.ofMode);
  const { ok: _, ...modes } = splitModes(split, 0, here.byClass);
  alone.push(...Object.values(modes));
  const held = zeroTable(2 * tree.count);
  held.set(of.shortSpans);
  held.set(of.shortStations, tree.count);
  return { alone: Float64Array.from(alone), short: of.short, held };
}

/** The chance of each cause, once all of them together have a mass of `whole`: a short's is shared out to its places. */
export function toChances({ alone, short, held }: CauseMasses, whole: number): Float64Array {
  let all = 0;
  for (const mass of held) all += Math.max(0, mass);
  const chances = zeroTable(alone.length + held.length + 1);
  for (let i = 0; i < alone.length; i++) chances[i] = Math.max(0, alone[i]! / whole);
  const ofShort = Math.max(0, short / whole);
  if (all === 0) chances[alone.length] = ofShort;
  else
    for (let i = 0; i < held.length; i++)
      chances[alone.length + 1 + i] = (ofShort * Math.max(0, held[i]!)) / all;
  return chances;
}
