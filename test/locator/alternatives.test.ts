import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { locate, type LocateResult } from '#app/locator/index.js';
import { oracleDrawing } from './oracle/drawing.js';
import type { OracleRequest, Rates } from './oracle/request.js';
import { box, saw, station } from './request-builders.js';
import { cases } from '../support/thorough.js';

const RATES: OracleRequest['rates'] = {
  headEnd: { 'bell-source': 0.02 },
  port: { 'no-output': 0.01 },
  station: { speaker: 0.02 },
  junction: { 'open-speech': 0.02 },
  cablePerMetre: { 'short-speech': 1e-4 },
};

const nodeIds = ['A1', 'A2', 'A3', 'A4', 'A5'];

/** A trunk of five in a row or with a tee, beside a short one, and what callers told of bell and music. */
const requests: fc.Arbitrary<OracleRequest> = fc
  .record({
    metres: fc.array(fc.integer({ min: 1, max: 80 }), { minLength: 7, maxLength: 7 }),
    tee: fc.boolean(),
    boxAt: fc.nat(12),
    groups: fc.array(fc.constantFrom(undefined, ['low']), { minLength: 5, maxLength: 5 }),
    outcomes: fc.array(fc.constantFrom('works', 'works', 'fails', 'weak', undefined), {
      minLength: 6,
      maxLength: 6,
    }),
    informants: fc.array(fc.constantFrom('technician', 'technician', undefined, 'p'), {
      minLength: 6,
      maxLength: 6,
    }),
    look: fc.constantFrom('sound', 'faulty', undefined),
    lookAt: fc.constantFrom(...nodeIds.slice(1)),
    begunBy: fc.constantFrom('complaint' as const, 'round' as const),
  })
  .map(
    ({
      metres,
      tee,
      boxAt,
      groups,
      outcomes,
      informants,
      look,
      lookAt,
      begunBy,
    }): OracleRequest => {
      const drawn = nodeIds.map((id, n) => {
        const fedFrom = tee && n === 4 ? 'A1' : (nodeIds[n - 1] ?? null);
        if (n === boxAt) return box(id, metres[n]!, fedFrom);
        return { ...station(id, metres[n]!, fedFrom), groups: groups[n] };
      });
      const isBox = (node: string) => node === nodeIds[boxAt];
      return {
        trunks: [
          { id: 'A', nodes: drawn },
          { id: 'B', nodes: [station('B1', metres[5]!), station('B2', metres[6]!)] },
        ],
        exposureDays: 91,
        rates: {
          ...RATES,
          headEnd: { 'bell-source': 0.02, ...(groups.some(Boolean) && { 'group-off': 0.02 }) },
        },
        observations: [...nodeIds, 'B1'].flatMap((node, n) =>
          isBox(node) || !outcomes[n]
            ? []
            : [saw(node, 'bell', outcomes[n], informants[n], node[0])],
        ),
        ...(look && {
          looks: [
            {
              place: { kind: 'span', trunk: 'A', from: null, to: lookAt },
              part: 'junction-in',
              seen: look,
            },
          ],
        }),
        begunBy,
      };
    },
  );

function numbers({ drawing }: LocateResult): Rates {
  return {
    'as drawn': drawing.asDrawn,
    ...Object.fromEntries(
      drawing.alternatives.map(({ kind, trunk, from, to, probability }) => [
        `${kind} ${trunk} ${from} ${to}`,
        probability,
      ]),
    ),
  };
}

function oracleNumbers(request: OracleRequest): Rates {
  const { asDrawn, alternatives } = oracleDrawing(request);
  return {
    'as drawn': asDrawn,
    ...Object.fromEntries(
      alternatives
        .filter(({ probability }) => probability >= 0.01)
        .map(({ kind, trunk, from, to, probability }) => [
          `${kind} ${trunk} ${from[1]} ${to[0]}`,
          probability,
        ]),
    ),
  };
}

/** The look at a span names its feeder, whatever the drawing. */
function withFeeders(request: OracleRequest): OracleRequest {
  const { nodes } = request.trunks[0]!;
  const feederOf = (id: string) => nodes.find((node) => node.id === id)?.fedFrom ?? null;
  return {
    ...request,
    looks: request.looks?.map((look) =>
      look.place.kind === 'span'
        ? { ...look, place: { ...look.place, from: feederOf(look.place.to) } }
        : look,
    ),
  };
}

describe('how far the drawing is to be believed', () => {
  it('agrees with adding up every world of every drawing', () => {
    let doubted = 0;
    fc.assert(
      fc.property(requests, (one) => {
        const request = withFeeders(one);
        const mine = numbers(locate({ ...request, explanations: 0 }));
        const theirs = oracleNumbers(request);
        expect(Object.keys(mine).sort()).toEqual(Object.keys(theirs).sort());
        for (const [name, chance] of Object.entries(theirs))
          expect([name, Math.abs((mine[name] ?? 0) - chance) < 1e-9]).toEqual([name, true]);
        if (mine['as drawn']! < 1 - 1e-4) doubted++;
      }),
      { seed: 48, numRuns: cases({ all: 30, usual: 10 }) },
    );
    // The property must have been about something.
    expect(doubted).toBeGreaterThan(cases({ all: 8, usual: 2 }));
  });

  it('a silent run between heard rooms is on a branch or at the end, and the causes lie there', () => {
    const ids = Array.from({ length: 20 }, (_, n) => `A${101 + n}`);
    const answer = locate({
      trunks: [{ id: 'A', nodes: ids.map((id) => station(id, 10)) }],
      exposureDays: 91,
      observations: ids.flatMap((id, n) =>
        ['announcement', 'bell'].map((name) => saw(id, name, n >= 4 && n <= 7 ? 'fails' : 'works')),
      ),
    });
    const { asDrawn, alternatives } = answer.drawing;
    expect(asDrawn).toBeLessThan(0.15);
    expect(alternatives.map(({ kind, from, to }) => [kind, from, to])).toEqual([
      ['end', 'A105', 'A108'],
      ['branch', 'A105', 'A108'],
    ]);
    expect(alternatives[1]!.tellApart).toEqual({
      look: 'cables-at-node',
      trunk: 'A',
      node: 'A104',
      asDrawn: 2,
      alternative: 3,
    });
    expect(alternatives[0]!.tellApart).toMatchObject({
      node: 'A120',
      asDrawn: 1,
      alternative: 2,
    });
    for (const { troubles, from } of alternatives) {
      const [first] = troubles[0]!.causes;
      expect(first!.cause).toMatchObject({ kind: 'span', to: from });
    }
  });
});
