import fc from 'fast-check';
import type { Load, SupplyTrunk, TrunkNode } from '#app/locator/electrical/index.js';

/** Evenly spread; fast-check's doubles crowd at zero. */
const between = (from: number, to: number) =>
  fc.integer({ min: 0, max: 10_000 }).map((share) => from + ((to - from) * share) / 10_000);

const load = (scale: number): fc.Arbitrary<Load | undefined> =>
  fc.oneof(
    fc.constant(undefined),
    between(0, 0.2 * scale).map((amps): Load => ({ kind: 'amps', amps })),
    between(0, 4 * scale).map((watts): Load => ({ kind: 'watts', watts })),
  );

/** Trunks with tees, junction boxes, bad joints; with `scale` far above 1 most of them collapse. */
export function arbitraryTrunk(scale: number): fc.Arbitrary<SupplyTrunk> {
  const node = fc.record({
    feeder: between(0, 1),
    cableMetres: between(0.1, 60),
    jointOhms: fc.option(between(0, 3), { nil: undefined }),
    load: load(scale),
  });
  return fc.record({
    sourceVolts: between(12, 48),
    sourceOhms: between(0, 1),
    loopOhmsPerMetre: between(0.005, 0.08),
    nodes: fc.array(node, { minLength: 1, maxLength: 12, size: 'max' }).map((drawn) =>
      drawn.map(({ feeder, ...rest }, i): TrunkNode => {
        const parent = Math.min(i, Math.floor(feeder * (i + 1))) - 1;
        return { ...rest, parent: parent < 0 ? null : parent };
      }),
    ),
  });
}
