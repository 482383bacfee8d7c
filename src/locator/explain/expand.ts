/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { logAdd } from '../numbers/log-add.js';
import type { Edge, NodeState } from './node-state.js';
import { localLogs } from './local-cases.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import type { Field, Partial, Waiting } from './partial.js';
import { VIEW_COUNT } from './run-effects.js';
import type { Stage } from './stages.js';
import type { WorkLeft } from './work.js';
import { zeroTable } from '../numbers/zero-table.js';

/** What one step of one explanation costs at the least, in the entries of work. */
const STEP = 50;

/** Ways to go on from a partial explanation, the best first: each has exp(offset + log) at most. */
export interface Fan {
  readonly offset: number;
  readonly ways: readonly EdgeWay[];
}

export interface EdgeWay {
  readonly log: number;
  /** Position among the edges. */
  readonly edge: number;
  /** Partial.logs within the step; null where the informative node has one below. */
  readonly logs: Float64Array | null;
}

/** Of one context. */
const NOTHING = Float64Array.of(0);

const largestFirst = (a: EdgeWay, b: EdgeWay) => b.log - a.log || a.edge - b.edge;

/** Chooses states informative node by informative node. */
export class Expander {
  private readonly known = new Map<NodeState, readonly EdgeWay[]>();
  constructor(
    private readonly stages: readonly Stage[],
    private readonly work: WorkLeft,
  ) {}

  first(field: Field, logPrior: number): Partial {
    return {
      field,
      stage: 0,
      done: 0,
      position: 0,
      logs: Float64Array.of(logPrior),
      waiting: null,
      previous: null,
      chosen: -1,
    };
  }

  isWhole({ stage }: Partial): boolean {
    return stage === this.stages.length;
  }

  fan(partial: Partial): Fan {
    const stage = this.stages[partial.stage]!;
    this.work.spend(STEP + stage.before.length * (1 + stage.waiting.length));
    if (stage.below.length > 1)
      return { offset: 0, ways: this.waysOfMany(partial, waitingLogs(stage, partial)) };
    const { opened: priors, before } = stage;
    if (stage.isPlain && priors.length === 1) {
      const waits = partial.waiting?.log ?? 0;
      return { offset: priors[0]! + partial.logs[before[0]!]! + waits, ways: this.plain(partial) };
    }
    const waiting = waitingLogs(stage, partial);
    const base = opened(stage, partial);
    for (let s = 0; s < base.length; s++) base[s]! += waiting[s]!;
    if (base.length > 1) return { offset: 0, ways: waysOfOne(stage, partial, base) };
    return { offset: base[0]!, ways: this.plain(partial) };
  }

  /** Where there is one context: the same from each partial explanation that is in this state. */
  private plain(partial: Partial): readonly EdgeWay[] {
    const stage = this.stages[partial.stage]!;
    const state = stateOf(stage, partial);
    const ways = this.known.get(state) ?? waysOfOne(stage, partial, NOTHING);
    this.known.set(state, ways);
    return ways;
  }

  take(partial: Partial, { edge, logs }: EdgeWay): Partial {
    const stage = this.stages[partial.stage]!;
    const { field, done } = partial;
    const state = stateOf(stage, partial);
    const { to } = state.edges[done]![edge]!;
    const waiting = stage.isLast[done]
      ? partial.waiting
      : {
          position: to,
          next: partial.waiting,
          log: (bestBelow(stage, field, done, to)[0] ?? 0) + (partial.waiting?.log ?? 0),
        };
    if (logs && done + 1 < stage.below.length)
      return {
        field,
        stage: partial.stage,
        done: done + 1,
        position: partial.position,
        logs,
        waiting,
        previous: partial,
        chosen: to,
      };
    this.work.spend(STEP + stage.before.length);
    const whole = logs
      ? closed(stage, state, logs)
      : throughOne(stage, partial, state.edges[done]![edge]!);
    const after = addAfter(stage, whole);
    // To the next step, whose informative node is the first that waits.
    return {
      field,
      stage: partial.stage + 1,
      done: 0,
      position: waiting?.position ?? 0,
      logs: after,
      waiting: waiting?.next ?? null,
      previous: partial,
      chosen: to,
    };
  }

  private waysOfMany(partial: Partial, waiting: Float64Array): EdgeWay[] {
    const stage = this.stages[partial.stage]!;
    const state = stateOf(stage, partial);
    const { done } = partial;
    const before = done > 0 ? partial.logs : nothingSeen(stage, partial, state);
    this.work.spend(state.edges[done]!.length * before.length * VIEW_COUNT);
    const ways = state.edges[done]!.map(({ chances, to }, edge) => {
      const best = bestBelow(stage, partial.field, done, to);
      const logs = unitePaths(before, state, chances, stage.pairBelow[done]!);
      const cells = logs.length / waiting.length;
      if (stage.isLast[done]!)
        for (let i = 0; i < logs.length; i++)
          logs[i]! += best[stage.contextBelow[done]![Math.floor(i / cells)]!]!;
      const rest = restLogs(stage, partial, state);
      const whole = logs.map((log, i) => {
        const s = Math.floor(i / cells);
        const own = stage.isLast[done] ? 0 : best[stage.contextBelow[done]![s]!]!;
        return log + rest[stage.informativeContext[s]! * cells + (i % cells)]! + waiting[s]! + own;
      });
      return { log: logSumExp(whole), edge, logs };
    });
    return ways.sort(largestFirst);
  }
}

/** From contexts of a step to those of the next one. */
function addAfter({ after, contextsAfter }: Stage, whole: Float64Array): Float64Array {
  if (whole.length === 1 && contextsAfter === 1) return whole;
  const sums = zeroTable(contextsAfter).fill(-Infinity);
  for (let s = 0; s < whole.length; s++) sums[after[s]!] = logAdd(sums[after[s]!]!, whole[s]!);
  return sums;
}

function stateOf({ informative }: Stage, { field, position }: Partial): NodeState {
  return field.graph.states[informative]![position]!;
}

function bestBelow({ below }: Stage, { bounds }: Field, j: number, to: number): Float64Array {
  return bounds[below[j]!]![to]!.best;
}

/** Partial.logs by context of the step that begins. */
function opened(stage: Stage, { logs }: Partial): Float64Array {
  const { opened: priors, before } = stage;
  const found = zeroTable(priors.length);
  for (let s = 0; s < found.length; s++) found[s] = priors[s]! + logs[before[s]!]!;
  return found;
}

/** By context of a step: the most that what waits, and what has begun to wait in this step, can add. */
function waitingLogs(stage: Stage, partial: Partial): Float64Array {
  if (stage.isPlain) return Float64Array.of(partial.waiting?.log ?? 0);
  const logs = zeroTable(stage.before.length);
  let cell: Waiting | null = partial.waiting;
  const next = (h: number, contexts: Int32Array) => {
    if (!cell) return;
    const { best } = partial.field.bounds[h]![cell.position]!;
    for (let s = 0; s < logs.length; s++) logs[s]! += best[contexts[s]!]!;
    cell = cell.next;
  };
  for (let j = partial.done - 1; j >= 0; j--)
    if (!stage.isLast[j]) next(stage.below[j]!, stage.contextBelow[j]!);
  stage.waiting.forEach((h, i) => {
    next(h, stage.waitingContext[i]!);
  });
  return logs;
}

function waysOfOne(stage: Stage, partial: Partial, base: Float64Array): EdgeWay[] {
  const { edges } = stateOf(stage, partial);
  const ways = edges[0]!.map(({ through, to }, edge) => {
    const best = bestBelow(stage, partial.field, 0, to);
    if (base.length === 1) return { log: base[0]! + through![0]! + best[0]!, edge, logs: null };
    const logs = base.map(
      (log, s) => log + through![stage.informativeContext[s]!]! + best[stage.contextBelow[0]![s]!]!,
    );
    return { log: logSumExp(logs), edge, logs: null };
  });
  return ways.sort(largestFirst);
}

function throughOne(stage: Stage, partial: Partial, { through, to }: Edge): Float64Array {
  const best = bestBelow(stage, partial.field, 0, to);
  const logs = opened(stage, partial);
  for (let s = 0; s < logs.length; s++) {
    const own = stage.isLast[0] ? best[stage.contextBelow[0]![s]!]! : 0;
    logs[s] = logs[s]! + through![stage.informativeContext[s]!]! + own;
  }
  return logs;
}

/** Partial.logs before any span below the informative node: of each case view 0. */
function nothingSeen(stage: Stage, partial: Partial, { cases }: NodeState): Float64Array {
  const { feeds, width } = cases;
  const start = opened(stage, partial);
  const cells = feeds.length * width;
  return Float64Array.from({ length: start.length * cells }, (_, i) =>
    i % width === 0 ? start[Math.floor(i / cells)]! : -Infinity,
  );
}

/** One more span: the view is the union of what was seen and what is seen there. */
function unitePaths(
  logs: Float64Array,
  { cases }: NodeState,
  chances: Float64Array,
  pairs: Int32Array,
): Float64Array {
  const { width, feeds } = cases;
  const cells = feeds.length * width;
  const united = zeroTable(logs.length).fill(-Infinity);
  for (let i = 0; i < logs.length; i++) {
    if (logs[i] === -Infinity) continue;
    const view = i % width;
    const row = pairs[Math.floor(i / cells)]! * cells + ((i - view) % cells);
    for (let v = 0; v < width; v++) {
      const chance = chances[row + v]!;
      if (chance === 0) continue;
      const to = i - view + (view | v);
      united[to] = logAdd(united[to]!, logs[i]! + ln(chance));
    }
  }
  return united;
}

/** By inner context, case and view: the most from the next informative node below on; after the last, what is known at the informative node. */
function restLogs(
  stage: Stage,
  { field, position, done }: Partial,
  state: NodeState,
): Float64Array {
  const { rest } = field.bounds[stage.informative]![position]!;
  return rest[done + 1] ?? localLogs(state.cases);
}

/** By context of the step, when all informative nodes below have their states. */
function closed(stage: Stage, { cases }: NodeState, logs: Float64Array): Float64Array {
  const cells = cases.feeds.length * cases.width;
  return stage.informativeContext.reduce((sums, of, s) => {
    const own = logs.subarray(s * cells, (s + 1) * cells);
    sums[s] = logSumExp(
      own.map((log, i) => log + ln(cases.local[of * cells + i]!) + cases.logs[of]!),
    );
    return sums;
  }, zeroTable(stage.informativeContext.length));
}
