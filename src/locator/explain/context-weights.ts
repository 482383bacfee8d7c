/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { logAdd } from '../numbers/log-add.js';
import type { Chosen } from './chosen.js';
import { unite } from './opening.js';
import { scaledViews } from './view-products.js';
import type { Hub } from './hubs.js';
import { logSumExp } from '../numbers/log-sum-exp.js';

const ONE = Float64Array.of(1);

/**
 * Given an explanation, how probable each setting of the confusion flags at each hub is: weights by inner context, not
 * normalised. Where no flag is open there is nothing to weigh.
 */
export function contextWeights(hubs: readonly Hub[], chosen: Chosen): Float64Array[] {
  if (hubs.every(({ outerOf }) => outerOf.length === 1)) return hubs.map(() => ONE);
  const own = hubs.map((_, h) => ownLogs(hubs[h]!, h, chosen));
  const below: Float64Array[] = hubs.map(() => ONE);
  for (let h = hubs.length - 1; h >= 0; h--) {
    const hub = hubs[h]!;
    const sums = new Float64Array(hub.outerCount).fill(-Infinity);
    innerLogs(hub, own[h]!, below).forEach((log, context) => {
      const to = hub.outerOf[context]!;
      sums[to] = logAdd(sums[to]!, log + hub.closing[context]!);
    });
    below[h] = sums;
  }
  const above = hubs.map(({ outerCount }) => new Float64Array(outerCount).fill(-Infinity));
  above[0]!.fill(0);
  return hubs.map((hub, h) => {
    const logs = innerLogs(hub, own[h]!, below).map(
      (log, context) => log + hub.closing[context]! + above[h]![hub.outerOf[context]!]!,
    );
    hub.below.forEach((to, j) => {
      logs.forEach((log, context) => {
        const of = hub.contextBelow[j]![context]!;
        const without = log - below[to]![of]!;
        if (log > -Infinity) above[to]![of] = logAdd(above[to]![of]!, without);
      });
    });
    const whole = logSumExp(logs);
    return logs.map((log) => Math.exp(log - whole));
  });
}

function innerLogs(hub: Hub, own: Float64Array, below: readonly Float64Array[]): Float64Array {
  return own.map((log, context) =>
    hub.below.reduce((sum, to, j) => sum + below[to]![hub.contextBelow[j]![context]!]!, log),
  );
}

/** By inner context: log P(what is known at the hub, its state, the runs below it). */
function ownLogs(hub: Hub, h: number, { states, edges }: Chosen): Float64Array {
  const { feeds, width, local, logs: scale } = states[h]!.cases;
  return hub.outerOf
    .map(() => 0)
    .reduce((logs, _, context) => {
      const cases = feeds.map((__, k) => {
        const at = (context * feeds.length + k) * width;
        let weights = scaledViews(local.slice(at, at + width));
        edges[h]!.forEach(({ chances }, j) => {
          const row = (hub.pairBelow[j]![context]! * feeds.length + k) * width;
          const views = chances.subarray(row, row + width);
          weights = scaledViews(unite(weights.views, views), weights.log);
        });
        return Math.log(weights.views[0]!) + weights.log;
      });
      logs[context] = logSumExp(cases) + scale[context]!;
      return logs;
    }, new Float64Array(hub.outerOf.length));
}
