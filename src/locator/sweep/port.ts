/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES } from '../model/cores.js';
import { closingChances, contextCount, contextMap } from './contexts.js';
import { DEAD_FEED, FEED_CLASSES, feedClass } from './feed-classes.js';
import { type Join, joined, joinedGauge, joinSpans } from './join.js';
import type { SpanTables } from './span-tables.js';
import { STATE_COUNT, STATES } from './states.js';
import type { TrunkModel } from './trunk-model.js';

/** The start of a trunk: the feed there is all cores but those whose short is seen (fault model, section 3). */
export interface PortTables {
  readonly join: Join;
  /** The context of the whole trunk (head-end group and flags shared with other trunks) for each of the port. */
  readonly siteContext: Int32Array;
  readonly closing: Float64Array;
  /** log P(what is known on this trunk | context of the trunk). */
  readonly logEvidence: Float64Array;
}

/** States that occur at the port: the feed follows from the view if the port is ok, and is dead if it is not. */
const FED_BY_OK = Uint8Array.from(STATES.view, (view, s) =>
  feedClass(ALL_CORES & ~view, false) === STATES.feed[s] ? 1 : 0,
);
const FED_BY_NO_OUTPUT = Uint8Array.from(STATES.feed, (feed) => (feed === DEAD_FEED ? 1 : 0));

/** log(exp(a) + exp(b)), also where both are -Infinity. */
export function logAdd(a: number, b: number): number {
  const most = Math.max(a, b);
  return most === -Infinity ? most : most + Math.log1p(Math.exp(Math.min(a, b) - most));
}

export function crossPort(model: TrunkModel, first: readonly SpanTables[]): PortTables {
  const { plan, tree } = model;
  const spanFlags = tree.first.map((n) => plan.spanFlags[n]!);
  const join = joinSpans(plan.groups, plan.portFlags, first, spanFlags);
  const siteContext = contextMap(plan.groups, plan.portFlags, plan.siteFlags);
  const closing = closingChances(plan.groups, plan.portFlags, plan.siteFlags, model.flags);
  const logEvidence = new Float64Array(contextCount(plan.groups, plan.siteFlags)).fill(-Infinity);
  const product = joined(join);
  for (let context = 0; context < join.contexts; context++) {
    const columns = new Float64Array(FEED_CLASSES);
    for (let s = 0; s < STATE_COUNT; s++) {
      const chance = FED_BY_OK[s]! * model.portOk + FED_BY_NO_OUTPUT[s]! * model.portNoOutput;
      columns[STATES.feed[s]!]! += chance * product.tables[product.at[context]! + s]!;
    }
    const site = siteContext[context]!;
    columns.forEach((sum, feed) => {
      const log = joinedGauge(join, context, feed) + Math.log(sum * closing[context]!);
      logEvidence[site] = logAdd(logEvidence[site]!, log);
    });
  }
  return { join, siteContext, closing, logEvidence };
}

/**
 * Down from the port. `logWeights` holds, by context of the trunk, the logarithm of what the rest of the site gives to
 * it over the whole evidence, so that the products with the upward messages are posterior masses.
 */
export function descendPort(
  model: TrunkModel,
  tables: PortTables,
  logWeights: Float64Array,
): { toJoin: Float64Array; ok: number; noOutput: number } {
  const { join } = tables;
  const product = joined(join);
  const toJoin = new Float64Array(join.contexts * STATE_COUNT);
  let ok = 0;
  let noOutput = 0;
  for (let context = 0; context < join.contexts; context++) {
    const weight = logWeights[tables.siteContext[context]!]!;
    if (weight === -Infinity) continue;
    for (let s = 0; s < STATE_COUNT; s++) {
      const gauge = joinedGauge(join, context, STATES.feed[s]!);
      const scale = Math.exp(weight + gauge) * tables.closing[context]!;
      const below = product.tables[product.at[context]! + s]!;
      const ifOk = scale * FED_BY_OK[s]! * model.portOk;
      const ifNoOutput = scale * FED_BY_NO_OUTPUT[s]! * model.portNoOutput;
      toJoin[context * STATE_COUNT + s] = ifOk + ifNoOutput;
      ok += ifOk * below;
      noOutput += ifNoOutput * below;
    }
  }
  return { toJoin, ok, noOutput };
}
