/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SpanEffect } from '../../plan/modes.js';
import { massesPerComponent, massesPerSpan } from '../sweep/descend-span.js';
import { type SpanChances, withPairs } from '../sweep/span-chances.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';

/** Mean number of components of a span, of three, that have one of some effects. */
export function spanMass(
  spans: Float64Array,
  classes: EffectClasses,
  n: number,
  isCounted: (effect: SpanEffect) => boolean,
): number {
  let mass = 0;
  for (let component = 0; component < 3; component++)
    classes.does.forEach((effect, e) => {
      const at = n * massesPerSpan(classes) + component * massesPerComponent(classes) + e;
      if (isCounted(effect)) mass += spans[at]!;
    });
  return mass;
}

/** The trunk with some effects ruled out on some spans: its evidence is then P(evidence, none of them there). */
export function trunkWithout(
  model: TrunkModel,
  spans: ReadonlySet<number>,
  isRuledOut: (effect: SpanEffect) => boolean,
): TrunkModel {
  const without = (list: readonly SpanChances[]) =>
    list.map((chances, n) => {
      if (!spans.has(n)) return chances;
      const left = chances.effects.map((chance, e) =>
        isRuledOut(model.effects.does[e]!) ? 0 : chance,
      );
      return withPairs(chances.ok, left, model.effects);
    });
  return {
    ...model,
    junctionOut: without(model.junctionOut),
    cable: without(model.cable),
    junctionIn: without(model.junctionIn),
  };
}

/** From the port's end to a node: the spans, the nearest to the node first. */
export function spansTo({ parent }: TrunkTree, node: number, most = Infinity): number[] {
  const spans: number[] = [];
  for (let n = node; n >= 0 && spans.length < most; n = parent[n]!) spans.push(n);
  return spans;
}
