/* eslint-disable @typescript-eslint/no-non-null-assertion -- indices are those of the model's own lists */
import { exp } from '../../elementary/exp.js';
import { channelBits } from '../posterior/information.js';
import { logSweptMassAgain, type SpareSweeps, type SweptSite } from '../sweep/sweep-site.js';
import type { CheckAction } from './check-action.js';
import { CONTINUITY_ROWS } from './check-outcomes.js';
import { siteWithoutOpens } from './site-given.js';
import { spanMass, spansTo } from './spans-in-question.js';

/** A stretch of more spans is not measured from end to end. */
const MOST_SPANS = 12;
/** Only so many stretches are worked out, those nearest to an even chance: each is a sweep. */
const MOST_STRETCHES = 12;
/** Past so many nodes that they sweep together, fewer of them. */
const MOST_SWEPT_NODES = 2_400;

type Continuity = Extract<CheckAction, { kind: 'continuity' }>;

interface Stretch {
  t: number;
  to: number;
  spans: number[];
  /** How many components are expected open: near the chance of any where that is small. */
  open: number;
}

/** Stretches along one way from the head-end whose continuity is in doubt, with what measuring it would tell in bits. */
export function continuityChecks(swept: SweptSite): { action: Continuity; bits: number }[] {
  const byDoubt = stretches(swept).sort(
    (a, b) => Math.abs(a.open - 0.5) - Math.abs(b.open - 0.5) || a.t - b.t || a.to - b.to,
  );
  const nodes = swept.site.trunks.reduce((sum, { tree }) => sum + tree.count, 0);
  const most = Math.max(1, Math.min(MOST_STRETCHES, Math.floor(MOST_SWEPT_NODES / nodes)));
  const spare: SpareSweeps = new Map();
  return byDoubt.slice(0, most).map((stretch) => {
    const through = chanceThrough(swept, stretch, spare);
    const { tree } = swept.site.trunks[stretch.t]!;
    const from = tree.parent[stretch.spans.at(-1) ?? 0] ?? -1;
    return {
      action: {
        kind: 'continuity',
        trunk: tree.id,
        from: tree.nodeIds[from] ?? null,
        to: tree.nodeIds[stretch.to] ?? '',
      },
      bits: channelBits([through, 1 - through], CONTINUITY_ROWS),
    };
  });
}

function stretches({ site, trunks }: SweptSite): Stretch[] {
  return site.trunks.flatMap((model, t) => {
    const spans = trunks[t]?.spans ?? new Float64Array();
    const open = model.tree.nodeIds.map((_, n) =>
      spanMass(spans, model.effects, n, ({ removes }) => removes > 0),
    );
    return model.tree.nodeIds.flatMap((_, to) => {
      const way = spansTo(model.tree, to, MOST_SPANS);
      let sum = 0;
      return way.map((n, i) => {
        sum += open[n] ?? 0;
        return { t, to, spans: way.slice(0, i + 1), open: sum };
      });
    });
  });
}

/** P(no component of the stretch is open | evidence), exactly: the evidence with every such open ruled out. */
function chanceThrough(swept: SweptSite, { t, spans }: Stretch, spare: SpareSweeps): number {
  const without = siteWithoutOpens(swept.site, t, new Set(spans));
  return Math.min(1, exp(logSweptMassAgain(swept, without, spare) - swept.masses.logEvidence));
}
