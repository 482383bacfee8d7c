/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { closingChances, contextCount, contextMap } from './contexts.js';
import { type Join, joined, joinedScale, joinSpans } from './join.js';
import { logAdd } from '../numbers/log-add.js';
import type { TrunkModel } from './trunk-model.js';
import type { TrunkTables } from './trunk-tables.js';
import { zeroTable } from '../numbers/zero-table.js';

/** The start of a trunk: the feed there is all cores but those whose short is seen (fault model, section 3). */
export interface PortJoin {
  readonly join: Join;
  /** The context of the whole trunk (head-end group and flags shared with other trunks) for each of the port. */
  readonly siteContext: Int32Array;
  readonly closing: Float64Array;
  /** Of each label at the port: what was said about stretches that end here. */
  readonly labelWeight: Float64Array;
  /** Natural logarithm of what loop readings have as a factor whatever the faults. */
  readonly logFlat: number;
  /** log P(what is known on this trunk | context of the trunk). */
  readonly logEvidence: Float64Array;
}

/** What is likelier than this, as a logarithm, cannot be. */
export const MOST_LOG = 600;

/**
 * The chances of a state at the port in a head-end group: with the port good, when the feed follows from the view, and with
 * no output, when it is dead. Without the head-end's power it is dead, whatever the port does.
 */
export function portFeeds(
  { portOk, portNoOutput, isPowerless, space }: TrunkModel,
  state: number,
  group: number,
): { ok: number; dead: number } {
  const dead = space.fedByNothing[state]!;
  const fed = isPowerless[group] === 1 ? dead : space.fedByOk[state]!;
  return { ok: fed * portOk, dead: dead * portNoOutput };
}

export function crossPort(model: TrunkModel, tables: TrunkTables): PortJoin {
  const { plan, tree, labels, space } = model;
  const join = joinSpans(
    tables,
    plan.groups,
    plan.portFlags,
    tree.first.map((n) => tables.spans[n]!),
    tree.first.map((n) => plan.spanFlags[n]!),
    labels?.port.joins,
  );
  const labelWeight = labels?.port.weight ?? Float64Array.of(1);
  const logFlat = model.readings?.logFlat ?? 0;
  const siteContext = contextMap(plan.groups, plan.portFlags, plan.siteFlags);
  const closing = closingChances(plan.groups, plan.portFlags, plan.siteFlags, model.flags);
  const logEvidence = zeroTable(contextCount(plan.groups, plan.siteFlags)).fill(-Infinity);
  const { table, at, stride, step, map } = joined(join);
  const columns = zeroTable(space.feeds);
  for (let c = 0; c < join.contexts; c++) {
    columns.fill(0);
    for (let s = 0; s < space.count; s++) {
      const { ok, dead } = portFeeds(model, s, c % plan.groups);
      const chance = ok + dead;
      for (let l = 0; l < labelWeight.length; l++) {
        const below = table[at + s * stride + l * step + map[c]!]!;
        columns[space.feed[s]!]! += chance * (labelWeight[l]! * below);
      }
    }
    const site = siteContext[c]!;
    for (let feed = 0; feed < columns.length; feed++) {
      const sum = columns[feed]!;
      const log = logFlat + joinedScale(tables, join, c, feed) + ln(sum * closing[c]!);
      logEvidence[site] = logAdd(logEvidence[site]!, log);
    }
  }
  return { join, siteContext, closing, labelWeight, logFlat, logEvidence };
}

/**
 * Down from the port. `logWeights` holds, by context of the trunk, the logarithm of what the rest of the site gives to
 * it over the whole evidence, so that the products with the upward messages are posterior masses.
 */
export function descendPort(
  model: TrunkModel,
  tables: TrunkTables,
  port: PortJoin,
  logWeights: Float64Array,
): { toJoin: Float64Array; ok: number; noOutput: number } {
  const { join, siteContext, closing, labelWeight, logFlat } = port;
  const { count: states, feed, feeds } = model.space;
  const { table, at, stride, labels, step, map } = joined(join);
  const toJoin = zeroTable(labels * join.contexts * states);
  let ok = 0;
  let noOutput = 0;
  const scales = zeroTable(feeds);
  for (let c = 0; c < join.contexts; c++) {
    const weight = logWeights[siteContext[c]!]!;
    if (weight === -Infinity) continue;
    for (let of = 0; of < feeds; of++) {
      const logScale = joinedScale(tables, join, c, of);
      // What cannot be may be likely beyond the range of doubles, if only it could.
      scales[of] = exp(Math.min(weight + logFlat + logScale, MOST_LOG)) * closing[c]!;
    }
    for (let s = 0; s < states; s++) {
      const scale = scales[feed[s]!]!;
      const chances = portFeeds(model, s, c % model.plan.groups);
      const ifOk = scale * chances.ok;
      const ifNoOutput = scale * chances.dead;
      for (let l = 0; l < labels; l++) {
        const below = labelWeight[l]! * table[at + s * stride + l * step + map[c]!]!;
        toJoin[(s * labels + l) * join.contexts + c] = labelWeight[l]! * (ifOk + ifNoOutput);
        ok += ifOk * below;
        noOutput += ifNoOutput * below;
      }
    }
  }
  return { toJoin, ok, noOutput };
}
