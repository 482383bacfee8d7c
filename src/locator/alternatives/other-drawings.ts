import type { LocateRequest } from '../request/locate-request.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import type { OtherDrawing } from './drawn-otherwise.js';
import { type Border, bordersOf, differ, type Told, toldOf } from './told-changes.js';
import { countInnerRuns, type Unbranched, unbranchedStretches } from './unbranched.js';

/** Chance that a trunk is not laid as drawn (fault model, section 10), a third of it for each kind. */
export const DRAWING_DOUBT = 0.02;
const KINDS = 3;

/**
 * Runs, and pairs of neighbours, of one trunk that are weighed: those between trouble and none first, then the
 * narrowest. The rest count with the drawing.
 */
export const MAX_RUNS_WEIGHED = 15;
export const MAX_PAIRS_WEIGHED = 20;

/** One alternative with its share of the trunk's prior. */
export interface WeighedDrawing {
  readonly other: OtherDrawing;
  readonly prior: number;
  /** The widest run that the evidence cannot tell from this one, where there is a wider one. */
  readonly widest?: { readonly from: string; readonly to: string };
}

interface Run {
  readonly stretch: Unbranched;
  readonly start: Border;
  readonly end: Border;
}

/** All that may be among the first MAX_RUNS_WEIGHED: from one start on, a run is the wider the later it ends. */
function runsBetween(stretch: Unbranched, borders: readonly Border[]): Run[] {
  const kinds = [true, false].map((ofTrouble) => ({
    ends: borders.filter((border) => border.ofTrouble === ofTrouble),
    next: 0,
  }));
  return borders.flatMap((start) =>
    kinds.flatMap((kind) => {
      while ((kind.ends[kind.next]?.after ?? Infinity) <= start.after) kind.next++;
      return kind.ends
        .slice(kind.next, kind.next + MAX_RUNS_WEIGHED)
        .map((end): Run => ({ stretch, start, end }));
    }),
  );
}

/** Those that come first in order. */
function firstRuns(runs: readonly Run[]): Run[] {
  for (const least of [2, 1]) {
    const some = runs.filter((run) => troubled(run) >= least);
    if (some.length >= MAX_RUNS_WEIGHED) return some.sort(inOrder).slice(0, MAX_RUNS_WEIGHED);
  }
  return [...runs].sort(inOrder).slice(0, MAX_RUNS_WEIGHED);
}

function troubled({ start, end }: Run): number {
  return Number(start.ofTrouble) + Number(end.ofTrouble);
}

function inOrder(a: Run, b: Run): number {
  const length = ({ start, end }: Run) => end.before - start.after;
  return troubled(b) - troubled(a) || length(a) - length(b);
}

function runDrawings(
  run: Run,
  names: readonly string[],
  prior: number,
): [WeighedDrawing, WeighedDrawing] {
  const { stretch, start, end } = run;
  const name = (place: number) => names[stretch[place] ?? -1] ?? '';
  const parts = {
    before: name(start.after - 1),
    run: stretch.slice(start.after, end.before + 1).map((node) => names[node] ?? ''),
    after: name(end.before + 1),
  };
  const alike = (start.after - start.before) * (end.after - end.before);
  const widest = { from: name(start.before + 1), to: name(end.after - 1) };
  const shared = { prior: prior * alike, ...(alike > 1 && { widest }) };
  const last = name(stretch.length - 1);
  return [
    { other: { kind: 'branch', ...parts }, ...shared },
    { other: { kind: 'end', ...parts, last }, ...shared },
  ];
}

/** Neighbours that may have each other's names: stations, one feeding the other. */
function pairsOf(tree: TrunkTree): [upper: number, lower: number][] {
  const pairs: [number, number][] = [];
  tree.parent.forEach((upper, lower) => {
    if (isStation(tree, upper) && isStation(tree, lower)) pairs.push([upper, lower]);
  });
  return pairs;
}

function isStation({ nodes }: TrunkTree, n: number): boolean {
  return nodes[n]?.kind === 'station';
}

function differing(
  pairs: readonly [number, number][],
  told: readonly (Told | null)[],
): [number, number][] {
  const differs = ([upper, lower]: readonly [number, number]) => {
    const [a, b] = [told[upper], told[lower]];
    return a && b && differ(a, b);
  };
  const ofTrouble = ([upper, lower]: readonly [number, number]) =>
    Number(told[upper]?.trouble !== told[lower]?.trouble);
  return pairs.filter(differs).sort((a, b) => ofTrouble(b) - ofTrouble(a));
}

/**
 * The ways in which one trunk may be laid other than drawn that what was told can tell from the drawing. Runs whose ends
 * differ only in nodes of which nothing was told are one, the narrowest, with their priors added.
 */
export function otherDrawings(
  request: LocateRequest,
  tree: TrunkTree,
  doubt: number,
): WeighedDrawing[] {
  const told = toldOf(request, tree);
  const stretches = unbranchedStretches(tree);
  const instances = stretches.reduce((sum, stretch) => sum + countInnerRuns(stretch), 0);
  const runs = firstRuns(
    stretches.flatMap((stretch) => firstRuns(runsBetween(stretch, bordersOf(stretch, told)))),
  );
  const neighbours = pairsOf(tree);
  const pairs = differing(neighbours, told).slice(0, MAX_PAIRS_WEIGHED);
  return [
    ...runs.flatMap((run) => runDrawings(run, tree.nodeIds, doubt / KINDS / instances)),
    ...pairs.map(([upper, lower]): WeighedDrawing => ({
      other: {
        kind: 'swapped',
        upper: tree.nodeIds[upper] ?? '',
        lower: tree.nodeIds[lower] ?? '',
      },
      prior: doubt / KINDS / neighbours.length,
    })),
  ];
}
