/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LikelyPlace } from '../posterior/locate-result.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { feedOf, viewOf } from './local-cases.js';
import type { Run } from './run.js';
import { VIEW_COUNT, WEAK_FEED } from './run-effects.js';
import { mostMoved, type LabelStep } from './label-steps.js';
import { addLabelledPosterior } from './labelled-posterior.js';
import { feedsBetween, POINT_COUNT, type RunEnds, runPosterior } from './run-posterior.js';
import { zeroTable } from '../numbers/zero-table.js';

/** A run in an explanation. */
export interface RunSetting {
  /** Feeds into it, by case; and the weights of the views at its top, in the layout of `chances`. */
  readonly feeds: readonly number[];
  readonly above: Float64Array;
  /** The state of the informative node below; null at a plain end. */
  readonly to: number | null;
  /** P(run), as Edge.chances. */
  readonly chances: Float64Array;
}

/** What is fed into a run to a plain end does not matter: nothing is known there. */
const feedInto = ({ feeds, to }: RunSetting, k: number) => (to === null ? WEAK_FEED : feeds[k]!);

function pointBelow({ to }: RunSetting): number {
  return to === null ? WEAK_FEED * VIEW_COUNT : feedOf(to) * VIEW_COUNT + viewOf(to);
}

/** Adds the weights of one pair of labels to those of points, from `at` on. */
function addWeights(setting: RunSetting, pair: number, points: Float64Array, at: number): void {
  const { feeds, above } = setting;
  for (let k = 0; k < feeds.length; k++) {
    const row = (pair * feeds.length + k) * VIEW_COUNT;
    const point = at + feedInto(setting, k) * VIEW_COUNT;
    for (let view = 0; view < VIEW_COUNT; view++) points[point + view]! += above[row + view]!;
  }
}

function endsOf(setting: RunSetting): RunEnds {
  const above = zeroTable(POINT_COUNT);
  addWeights(setting, 0, above, 0);
  return { above, below: pointBelow(setting) };
}

/** P(what is at the ends of the run). */
function chanceOfEnds({ above, chances }: RunSetting): number {
  let sum = 0;
  for (let i = 0; i < above.length; i++) sum += above[i]! * chances[i]!;
  return sum;
}

/** Of one pair of labels: the largest weight above of each case, added up. */
function mostAbove({ feeds, above }: RunSetting, pair: number): number {
  let sum = 0;
  for (let k = 0; k < feeds.length; k++) {
    const row = (pair * feeds.length + k) * VIEW_COUNT;
    let most = 0;
    for (let view = 0; view < VIEW_COUNT; view++) most = Math.max(most, above[row + view]!);
    sum += most;
  }
  return sum;
}

/** By label below a run, its pairs of labels of which anything can come: a few of many. */
function pairsByBelow(run: Run, setting: RunSetting): Map<number, number[]> {
  const found = new Map<number, number[]>();
  run.pairs().forEach(({ below }, p) => {
    if (mostAbove(setting, p) === 0) return;
    const pairs = found.get(below);
    if (pairs) pairs.push(p);
    else found.set(below, [p]);
  });
  return found;
}

/** No modes of the run's components make more of the weights above. */
function mostLabelled(
  run: Run,
  steps: readonly LabelStep[],
  setting: RunSetting,
  byBelow: ReadonlyMap<number, readonly number[]>,
): number {
  let sum = 0;
  for (const [below, pairs] of byBelow) {
    const most = zeroTable(steps[0]!.labelsAbove);
    for (const p of pairs) most[run.pairs()[p]!.above] = mostAbove(setting, p);
    sum += mostMoved(steps, most)[below]!;
  }
  return sum;
}

/** As runPosterior, summed over labels. */
function labelledPosterior(
  run: Run,
  steps: readonly LabelStep[],
  setting: RunSetting,
  byBelow: ReadonlyMap<number, readonly number[]>,
): Float64Array {
  const faulty = zeroTable(run.groups().length);
  const last = pointBelow(setting);
  let whole = 0;
  for (const [below, pairs] of byBelow) {
    const weights = zeroTable(steps[0]!.labelsAbove * POINT_COUNT);
    const points = zeroTable(POINT_COUNT);
    for (const p of pairs) {
      addWeights(setting, p, weights, run.pairs()[p]!.above * POINT_COUNT);
      addWeights(setting, p, points, 0);
    }
    const between = feedsBetween({ above: points, below: last });
    whole += addLabelledPosterior(steps, between, weights, below * POINT_COUNT + last, faulty);
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
  const mostPrior = groups.reduce((most, { prior }) => Math.max(most, prior), 0);
  // A place's odds can be twice what they were only so: faulty it makes no more of the weights above than the most.
  const canBeRaised = (mostOfWeights: number) =>
    chanceOfEnds(setting) <= (mostOfWeights * (1 + mostPrior)) / 2;
  const steps = run.labelled()?.steps;
  let found: Float64Array;
  if (steps) {
    const byBelow = pairsByBelow(run, setting);
    if (onlyRaised && !canBeRaised(mostLabelled(run, steps, setting, byBelow))) return [];
    found = labelledPosterior(run, steps, setting, byBelow);
  } else {
    if (onlyRaised && !canBeRaised(mostAbove(setting, 0))) return [];
    const parts = groups.map((group) => group.parts);
    found = runPosterior(parts, endsOf(setting));
  }
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
