// Arbitrary drawings and evidence, and what must hold of every answer.
import { expect } from '@jest/globals';
import fc from 'fast-check';
import {
  CORES,
  type Electrical,
  FUNCTIONS,
  type LocateRequest,
  type LocateResult,
  OUTCOMES,
  type RequestObservation,
  type RequestReading,
} from '#app/locator/index.js';

const trunkOf = (id: string) =>
  fc
    .array(
      fc.record({
        kind: fc.constantFrom('station' as const, 'station' as const, 'junction-box' as const),
        cableMetres: fc.double({ min: 0, max: 300, noNaN: true }),
        feeder: fc.nat(100),
        exposureDays: fc.option(fc.double({ min: 0, max: 3000, noNaN: true }), { nil: undefined }),
      }),
      { minLength: 1, maxLength: 9 },
    )
    .map((nodes) => ({
      id,
      nodes: nodes.map(({ kind, cableMetres, feeder, exposureDays }, n) => ({
        id: `${id}${n}`,
        kind: n === 0 ? ('station' as const) : kind,
        cableMetres,
        exposureDays,
        fedFrom: n === 0 || feeder % (n + 2) === 0 ? null : `${id}${feeder % n}`,
      })),
    }));

const drawing = fc
  .integer({ min: 1, max: 3 })
  .chain((count) => fc.tuple(...['A', 'B', 'C'].slice(0, count).map(trunkOf)));

function observationsOf(trunks: LocateRequest['trunks']): fc.Arbitrary<RequestObservation[]> {
  const stations = trunks.flatMap((trunk) =>
    trunk.nodes
      .filter((node) => node.kind === 'station')
      .map((node) => [trunk.id, node.id] as const),
  );
  return fc.array(
    fc
      .record({
        at: fc.constantFrom(...stations),
        function: fc.constantFrom(...FUNCTIONS),
        outcome: fc.constantFrom(...OUTCOMES),
        who: fc.constantFrom('nobody', 'technician', 'p', 'q', 'r'),
      })
      .map(({ at: [trunk, node], function: name, outcome, who }) => ({
        trunk,
        node,
        function: name,
        outcome,
        informant:
          who === 'nobody'
            ? undefined
            : who === 'technician'
              ? { kind: 'technician' as const }
              : { id: who, kind: 'office' as const },
      })),
    { maxLength: 20 },
  );
}

export const requests: fc.Arbitrary<LocateRequest> = drawing.chain((trunks) =>
  fc.record({
    trunks: fc.constant(trunks),
    exposureDays: fc.double({ min: 0, max: 2000, noNaN: true }),
    observations: observationsOf(trunks),
    unmentioned: fc.option(
      fc.record({
        reportRate: fc.double({ min: 0, max: 1, noNaN: true }),
        functions: fc.subarray([...FUNCTIONS]),
      }),
      { nil: undefined },
    ),
    explanations: fc.constant(0),
  }),
);

/** The feeder of each node, and so on up to the port. */
function pathOf({ nodes }: LocateRequest['trunks'][number], to: string): string[] {
  const node = nodes.find(({ id }) => id === to);
  return node
    ? [to, ...(typeof node.fedFrom === 'string' ? pathOf({ id: '', nodes }, node.fedFrom) : [])]
    : [];
}

function readingOf(trunk: LocateRequest['trunks'][number]): fc.Arbitrary<RequestReading> {
  const node = fc.constantFrom(...trunk.nodes.map(({ id }) => id));
  const uncertain = fc.oneof(fc.constant(1e-4), fc.double({ min: 1e-4, max: 2, noNaN: true }));
  return fc.oneof(
    fc.record({
      kind: fc.constant('supply-volts' as const),
      trunk: fc.constant(trunk.id),
      node,
      volts: fc.double({ min: 0, max: 36, noNaN: true }),
      uncertaintyVolts: uncertain,
    }),
    fc.record({
      kind: fc.constant('loop-ohms' as const),
      trunk: fc.constant(trunk.id),
      core: fc.constantFrom('supply' as const, 'speech' as const, 'select' as const),
      ohms: fc.double({ min: 0, max: 8, noNaN: true }),
      uncertaintyOhms: uncertain,
    }),
    node.chain((to) =>
      fc.record({
        kind: fc.constant('continuity' as const),
        trunk: fc.constant(trunk.id),
        from: fc.constantFrom(null, ...pathOf(trunk, to).slice(1)),
        to: fc.constant(to),
        cores: fc.subarray([...CORES], { minLength: 1 }),
        passes: fc.boolean(),
      }),
    ),
  );
}

/** A few readings, and the supply that they are compared with; some lie beyond their trunk. */
export function readingsOf(
  trunks: LocateRequest['trunks'],
): fc.Arbitrary<{ electrical: Electrical; readings: RequestReading[] }> {
  return fc.record({
    electrical: fc.record({
      sourceVolts: fc.constant(24),
      sourceOhms: fc.constantFrom(0, 0.2),
      stationAmps: fc.constantFrom(0, 0.02, 0.08),
      coreOhmsPerKm: fc.constantFrom(18.1, 36),
    }),
    readings: fc.array(fc.oneof(...trunks.map(readingOf)), { maxLength: 6 }),
  });
}

/** Readings have densities, whose logarithms may be above 0. */
export function expectSound(result: LocateResult, mostLogEvidence = 1e-9): void {
  expect(Number.isFinite(result.logEvidence)).toBe(true);
  expect(result.logEvidence).toBeLessThan(mostLogEvidence);
  for (const { probability, components } of result.places) {
    expect(probability).toBeGreaterThanOrEqual(0);
    expect(probability).toBeLessThanOrEqual(1 + 1e-9);
    let largest = 0;
    let sum = 0;
    for (const { modes } of components) {
      const chances = Object.values(modes);
      expect(Math.abs(chances.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(1e-9);
      const faulty = chances.slice(1).reduce((a, b) => a + b, 0);
      largest = Math.max(largest, faulty);
      sum += faulty;
    }
    // At least one of several: no less than the likeliest of them, no more than all together.
    expect(probability).toBeGreaterThanOrEqual(largest - 1e-9);
    expect(probability).toBeLessThanOrEqual(sum + 1e-9);
  }
  for (const { works } of result.predictions) {
    expect(works).toBeGreaterThanOrEqual(0);
    expect(works).toBeLessThanOrEqual(1 + 1e-9);
  }
  for (const { informationBits } of result.checks) {
    expect(informationBits).toBeGreaterThanOrEqual(0);
    expect(informationBits).toBeLessThanOrEqual(Math.log2(3));
  }
}
