/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { power } from '../../elementary/power.js';
import { ln } from '../../elementary/ln.js';
import { contextMap } from '../sweep/contexts.js';
import type { ConfusionFlag } from '../sweep/statements.js';
import { type InformativeNode, TooManyLabels } from './informative-nodes.js';

/** So many contexts of one step are looked at. */
const MOST_STAGE_CONTEXTS = 2 ** 16;
/** And of all steps together, times the square of the informative nodes that wait meanwhile. */
const MOST_STAGE_ENTRIES = 1e7;

/**
 * One step of the search: an informative node whose state is chosen gets the states of the informative nodes below it chosen, one after another.
 * Its *contexts* are settings of all flags that are open then: the informative node's, and those of the informative nodes that wait.
 */
export interface Stage {
  readonly informative: number;
  readonly below: readonly number[];
  /** By context: that of the step before, and log of the prior of the flags that open here. */
  readonly before: Int32Array;
  readonly opened: Float64Array;
  /** By context: that over the informative node's inner flags, and that over the flags of each informative node below. */
  readonly informativeContext: Int32Array;
  readonly contextBelow: readonly Int32Array[];
  /** Which pair of labels of each run below. */
  readonly pairBelow: readonly Int32Array[];
  /** Whether nothing is below each informative node below: such a one never waits. */
  readonly isLast: readonly boolean[];
  /** Whether no flag or label is open at this informative node, those that wait and those below. */
  readonly isPlain: boolean;
  /** Informative nodes that wait meanwhile, the next first, and their contexts; empty where all have one context. */
  readonly waiting: readonly number[];
  readonly waitingContext: readonly Int32Array[];
  /** By context: that of the next step; and how many that has. */
  readonly after: Int32Array;
  readonly contextsAfter: number;
}

const ascending = (flags: Iterable<number>) => [...new Set(flags)].sort((a, b) => a - b);

function priorOfNew(
  open: readonly number[],
  known: readonly number[],
  flags: readonly ConfusionFlag[],
): Float64Array {
  if (open.length === 0) return NOTHING_OPENS;
  return Float64Array.from({ length: 1 << open.length }, (_, context) =>
    open.reduce((log, flag, position) => {
      if (known.includes(flag)) return log;
      const { confused } = flags[flag]!;
      return log + ln((context >> position) & 1 ? confused : 1 - confused);
    }, 0),
  );
}

/** The map of one context to the only other one, and its prior where no flag opens. */
const ONLY = Int32Array.of(0);
const NOTHING_OPENS = Float64Array.of(0);

/** Numbers a choice of one of `counts[i]` for each i. */
function numberOf(choices: readonly number[], counts: readonly number[]): number {
  return choices.reduce((number, choice, i) => number * counts[i]! + choice, 0);
}

function choicesOf(number: number, counts: readonly number[]): number[] {
  const choices: number[] = [];
  for (let i = counts.length - 1, rest = number; i >= 0; i--) {
    choices.unshift(rest % counts[i]!);
    rest = Math.floor(rest / counts[i]!);
  }
  return choices;
}

const labelsOf = ({ outerCount, outer }: InformativeNode) => outerCount >> outer.length;

/** The steps in their order, the last informative node that began to wait first. The first one is the site's, with one context. */
export function planStages(
  informativeNodes: readonly InformativeNode[],
  flags: readonly ConfusionFlag[],
): Stage[] {
  const stages: Stage[] = [];
  let left = MOST_STAGE_ENTRIES;
  const spend = (entries: number) => {
    left -= entries;
    if (left < 0) throw new TooManyLabels();
  };
  let known: readonly number[] = [];
  let stack: readonly number[] = [0];
  for (let [informative] = stack; informative !== undefined; informative = stack[0]) {
    const before = stack;
    const { below } = informativeNodes[informative]!;
    const isLast = below.map((h) => informativeNodes[h]!.below.length === 0);
    stack = [...below.filter((_, j) => !isLast[j]).reverse(), ...before.slice(1)];
    const next = ascending(stack.flatMap((h) => informativeNodes[h]!.outer));
    stages.push(planStage(informativeNodes, flags, { before, known, stack, next, isLast, spend }));
    known = next;
  }
  return stages;
}

/** A label of something, given those of the informative nodes that wait and the term of the step's informative node. */
type LabelOf = (labels: readonly number[], term: number) => number;

/** From the contexts of a step to (label, setting of the flags `to`); `counts` are the labels' and last the terms'. */
function mapContexts(
  open: readonly number[],
  counts: readonly number[],
  of: LabelOf,
  to: readonly number[],
): Int32Array {
  const settings = 1 << open.length;
  const kept = contextMap(1, open, to);
  const length = counts.reduce((product, count) => product * count, settings);
  return Int32Array.from({ length }, (_, s) => {
    const choices = choicesOf(Math.floor(s / settings), counts);
    const label = of(choices.slice(0, -1), choices.at(-1)!);
    return (label << to.length) + kept[s % settings]!;
  });
}

/** Contexts of a step: (label of each informative node that waits, term of the informative node; setting of the open flags). */
function planStage(
  informativeNodes: readonly InformativeNode[],
  flags: readonly ConfusionFlag[],
  given: {
    before: readonly number[];
    known: readonly number[];
    stack: readonly number[];
    next: readonly number[];
    isLast: readonly boolean[];
    spend: (entries: number) => void;
  },
): Stage {
  const { before, known, stack, next, isLast } = given;
  const [informative = 0, ...waiting] = before;
  const own = informativeNodes[informative]!;
  const open = ascending([...own.inner, ...waiting.flatMap((h) => informativeNodes[h]!.outer)]);
  const settings = 1 << open.length;
  const counts = [...waiting.map((h) => labelsOf(informativeNodes[h]!)), own.terms.length];
  const contexts = counts.reduce((product, count) => product * count, settings);
  if (contexts > MOST_STAGE_CONTEXTS) throw new TooManyLabels();
  const isOne = (h: number) => labelsOf(informativeNodes[h]!) === 1;
  const isPlain = contexts === 1 && before.every(isOne) && stack.every(isOne);
  if (!isPlain) given.spend(contexts * power(1 + waiting.length, 2));
  const map = (of: LabelOf, to: readonly number[]) =>
    isPlain ? ONLY : mapContexts(open, counts, of, to);
  const informativeContext = map((_, term) => term, own.inner);
  const labelsOver = (list: readonly number[]) => list.map((h) => labelsOf(informativeNodes[h]!));
  const opened = priorOfNew(open, known, flags);
  const nextLabels = (labels: readonly number[], term: number) => {
    const fresh = own.below.flatMap((h, j) =>
      isLast[j]
        ? []
        : own.contextBelow[j]![term << own.inner.length]! >> informativeNodes[h]!.outer.length,
    );
    return [...fresh.reverse(), ...labels];
  };
  return {
    informative,
    below: own.below,
    before: map(
      (labels, term) => numberOf([own.terms[term]!.out, ...labels], labelsOver(before)),
      known,
    ),
    opened:
      contexts === opened.length
        ? opened
        : Float64Array.from({ length: contexts }, (_, s) => opened[s % settings]!),
    informativeContext,
    contextBelow: own.contextBelow.map((of) => informativeContext.map((context) => of[context]!)),
    pairBelow: own.pairBelow.map((of) => informativeContext.map((context) => of[context]!)),
    isLast,
    isPlain,
    waiting: isPlain ? [] : waiting,
    waitingContext: isPlain
      ? []
      : waiting.map((h, i) => map((labels) => labels[i]!, informativeNodes[h]!.outer)),
    after: map((labels, term) => numberOf(nextLabels(labels, term), labelsOver(stack)), next),
    contextsAfter: labelsOver(stack).reduce((product, count) => product * count, 1 << next.length),
  };
}
