import { describe, expect, it } from '@jest/globals';
import { DEFAULT_RATES } from '../../plan/rates.js';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { SPAN_MODES } from '../../plan/modes.js';
import { tablesOf } from '../../plan/plan-tables.js';
import type { SeriesPart } from './component-priors.js';
import { RunBounds } from './run-bounds.js';
import {
  bits,
  EFFECT_COUNT,
  FEED_BELOW,
  FEED_COUNT,
  inSeries,
  SHORT_STATION,
  VIEW_ABOVE,
  VIEW_COUNT,
} from './run-effects.js';
import { componentActs, seriesActs } from './series-acts.js';
import { leadsTo, viewsThrough } from './views-through.js';

function junction(years: number): SeriesPart {
  const chances = SPAN_MODES.map(
    (mode, m) => (m + 1) * years * (DEFAULT_RATES.junction[mode] ?? 0),
  );
  const ok = 1 - chances.reduce((sum, chance) => sum + chance, 0);
  const effects = Object.values(tablesOf(DEFAULT_PLAN).spanEffects).map(bits);
  const acts = componentActs(ok, effects, chances);
  return { ok, effects, modes: SPAN_MODES.map((_, m) => m), chances, faulty: 1 - ok, acts };
}

const station: SeriesPart = {
  ok: 0.97,
  effects: [SHORT_STATION],
  modes: [-1],
  chances: [0.03],
  faulty: 0.03,
  acts: componentActs(0.97, [SHORT_STATION], [0.03]),
};
const parts = [junction(1), junction(3), junction(8), station, junction(5), junction(2)];

/** P(effect of all): every effect of each in series with every effect of those below it. */
function effectsOf(list: readonly SeriesPart[]): Float64Array {
  return list.reduceRight(
    (below, { ok, effects, chances }) => {
      const sum = below.map((mass) => ok * mass);
      effects.forEach((effect, m) =>
        below.forEach((mass, e) => (sum[inSeries(effect, e)]! += chances[m]! * mass)),
      );
      return sum;
    },
    Float64Array.from({ length: EFFECT_COUNT }, (_, e) => (e === 0 ? 1 : 0)),
  );
}

const EFFECTS = effectsOf(parts);

function viewsByEffects(feedAbove: number, feedBelow: number, viewBelow: number): Float64Array {
  const views = new Float64Array(VIEW_COUNT);
  EFFECTS.forEach((chance, e) => {
    if (FEED_BELOW[feedAbove * EFFECT_COUNT + e] === feedBelow)
      views[VIEW_ABOVE[viewBelow * EFFECT_COUNT + e]!]! += chance;
  });
  return views;
}

const points = [...Array(FEED_COUNT).keys()].flatMap((above) =>
  [...Array(FEED_COUNT).keys()]
    .filter((below) => leadsTo(above, below))
    .flatMap((below) => [...Array(VIEW_COUNT).keys()].map((view) => ({ above, below, view }))),
);

describe('views through components in series', () => {
  it('are what the sum over all effects gives, for every feed and view at the two ends', () => {
    const acts = seriesActs([{ parts }]);
    let worst = 0;
    for (const { above, below, view } of points) {
      const wanted = viewsByEffects(above, below, view);
      viewsThrough(acts, above, below, view).forEach((chance, v) => {
        const off = Math.abs(chance - wanted[v]!);
        worst = Math.max(worst, wanted[v] === 0 ? off : off / wanted[v]!);
      });
    }
    expect(points).toHaveLength(3 ** 4 * 3 * VIEW_COUNT);
    expect(worst).toBeLessThan(1e-13);
  });

  it('are never above what the bounds of the run allow', () => {
    const acts = seriesActs([{ parts }]);
    const bounds = new RunBounds(acts);
    let closest = 0;
    for (const { above, below, view } of points) {
      const views = viewsThrough(acts, above, below, view);
      const weights = new Float64Array(VIEW_COUNT);
      views.forEach((chance, v) => {
        weights.fill(0);
        weights[v] = 1;
        const most = Math.exp(bounds.lost(above, below)) * bounds.seen(weights, 0, view);
        closest = Math.max(closest, chance / most);
      });
    }
    expect(closest).toBeLessThanOrEqual(1);
    expect(closest).toBeGreaterThan(0.5);
  });
});
