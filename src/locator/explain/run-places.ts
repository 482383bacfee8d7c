/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LikelyPlace } from '../posterior/locate-result.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { feedOf, viewOf } from './local-cases.js';
import type { Run } from './run.js';
import { VIEW_COUNT, WEAK_FEED } from './run-effects.js';
import { addLabelledPosterior, type LabelStep } from './label-steps.js';
import { feedsBetween, POINT_COUNT, type RunEnds, runPosterior } from './run-posterior.js';

/** A run in an explanation. */
export interface RunSetting {
  /** Feeds into it, by case; and by pair of labels * cases + case the weights of the views at its top. */
  readonly feeds: readonly number[];
  readonly above: readonly Float64Array[];
  /** The state of the informative node below; null at a plain end. */
  readonly to: number | null;
  /** P(run), as Edge.chances. */
  readonly chances: Float64Array;
}

function endsOf({ feeds, above, to }: Pick<RunSetting, 'feeds' | 'above' | 'to'>): RunEnds {
  const weights = new Float64Array(POINT_COUNT);
  // What is fed into a run to a plain end does not matter: nothing is known there.
  feeds.forEach((feed, k) => {
    const point = (to === null ? WEAK_FEED : feed) * VIEW_COUNT;
    above[k]!.forEach((weight, view) => (weights[point + view]! += weight));
  });
  const below = to === null ? WEAK_FEED * VIEW_COUNT : feedOf(to) * VIEW_COUNT + viewOf(to);
  return { above: weights, below };
}

/**
 * P(what is at the ends of the run), with the weights above at most 1. Its places' odds can be twice what they were only
 * if this is under half: P(ends | place good) is at most 1, P(ends | place faulty) too.
 */
function chanceOfEnds({ above, chances }: RunSetting): number {
  let sum = 0;
  let most = 0;
  above.forEach((weights, k) => {
    let largest = 0;
    weights.forEach((weight, view) => {
      sum += weight * chances[k * VIEW_COUNT + view]!;
      largest = Math.max(largest, weight);
    });
    most += largest;
  });
  return sum / most;
}

/** As runPosterior, summed over labels. */
function labelledPosterior(
  run: Run,
  steps: readonly LabelStep[],
  { feeds, above, to }: RunSetting,
): Float64Array {
  const pairs = run.pairs();
  const faulty = new Float64Array(run.groups().length);
  const ends = pairs.map((_, p) =>
    endsOf({ feeds, above: above.slice(p * feeds.length, (p + 1) * feeds.length), to }),
  );
  const { below } = endsOf({ feeds: [], above: [], to });
  let whole = 0;
  for (const label of new Set(pairs.map((pair) => pair.below))) {
    const weights = new Float64Array((steps[0]?.labelsAbove ?? 1) * POINT_COUNT);
    const points = new Float64Array(POINT_COUNT);
    pairs.forEach((pair, p) => {
      if (pair.below !== label) return;
      ends[p]?.above.forEach((weight, point) => {
        weights[pair.above * POINT_COUNT + point]! += weight;
        points[point]! += weight;
      });
    });
    if (points.every((weight) => weight === 0)) continue;
    const between = feedsBetween({ above: points, below });
    whole += addLabelledPosterior(steps, between, weights, label * POINT_COUNT + below, faulty);
  }
  return faulty.map((mass) => mass / whole);
}

/** A place with its chance of a fault given an explanation, and before anything was known. */
export interface PlaceGiven extends LikelyPlace {
  readonly prior: number;
}

/** Places along a run; where only raised ones are wanted, none where none can be. */
export function runPlaces(
  tree: TrunkTree,
  run: Run,
  setting: RunSetting,
  onlyRaised: boolean,
): PlaceGiven[] {
  const groups = run.groups();
  const most = Math.max(...groups.map(({ prior }) => prior));
  const steps = run.labelled()?.steps;
  if (onlyRaised && !steps && chanceOfEnds(setting) > (1 + most) / 2) return [];
  const found = steps
    ? labelledPosterior(run, steps, setting)
    : runPosterior(
        groups.map(({ parts }) => parts),
        endsOf(setting),
      );
  return groups.map(({ node, isStation, parts, prior, otherFaults }, g): PlaceGiven => {
    const [trunk, name] = [tree.id, tree.nodeIds[node]!];
    const from = tree.nodeIds[tree.parent[node]!] ?? null;
    if (!isStation)
      return { place: { kind: 'span', trunk, from, to: name }, probability: found[g]!, prior };
    const others = parts[0]!.ok > 0 ? otherFaults / parts[0]!.ok : 0;
    const probability = found[g]! + (1 - found[g]!) * others;
    return { place: { kind: 'station', trunk, node: name }, probability, prior };
  });
}
