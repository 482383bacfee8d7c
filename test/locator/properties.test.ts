import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  type Explanation,
  ImpossibleEvidence,
  InvalidLocateRequest,
  locate,
} from '#app/locator/index.js';
import { expectSound, readingsOf, requests } from './arbitrary-requests.js';
import { largestDifference, named, placeName } from './compare.js';
import { cases } from '../support/thorough.js';

// Arbitrary drawings and evidence. Seeds are fixed: a failure repeats.
const RUNS = { seed: 20_260, numRuns: cases({ all: 60, usual: 20 }) };

/** What an explanation says apart from its chances. */
const saidBy = ({ headEnd, trunks }: Explanation) => JSON.stringify([headEnd, trunks]);

/** Explanations cost more than the rest of an answer: the other properties do without. */
const explained = requests.map((request) => ({ ...request, explanations: 10 }));
const FEWER_RUNS = { ...RUNS, numRuns: cases({ all: 25, usual: 8 }) };

describe('explanations, on arbitrary drawings and evidence', () => {
  it('are distinct, sorted, and sum to one with what is uncovered', () => {
    fc.assert(
      fc.property(explained, (request) => {
        const { explanations = [], uncovered = NaN } = locate(request);
        expect(new Set(explanations.map(saidBy)).size).toBe(explanations.length);
        const chances = explanations.map(({ probability }) => probability);
        for (const [i, chance] of chances.entries())
          expect(chance).toBeLessThanOrEqual((chances[i - 1] ?? 1) * (1 + 1e-9));
        expect(chances.reduce((sum, chance) => sum + chance, 0) + uncovered).toBeCloseTo(1, 9);
        for (const { likely } of explanations) {
          expect(likely.length).toBeLessThanOrEqual(12);
          for (const { probability } of likely) {
            expect(probability).toBeGreaterThanOrEqual(0.001);
            expect(probability).toBeLessThanOrEqual(1 + 1e-9);
          }
        }
      }),
      FEWER_RUNS,
    );
  });

  it('are a beginning of any longer list of them', () => {
    fc.assert(
      fc.property(explained, (request) => {
        const lists = [3, 6, 15].map((explanations) => locate({ ...request, explanations }));
        const [few, some, many] = lists.map((result) => (result.explanations ?? []).map(saidBy));
        expect(some!.slice(0, 3)).toEqual(few);
        expect(many!.slice(0, 6)).toEqual(some);
      }),
      FEWER_RUNS,
    );
  });

  it('agree with the places: of a place, what the listed explanations say is not more than its chance', () => {
    fc.assert(
      fc.property(explained, (request) => {
        const { explanations = [], places } = locate({ ...request, explanations: 12 });
        const whole = new Map(
          places.map(({ place, probability }) => [placeName(place), probability]),
        );
        const listed = new Map<string, number>();
        for (const { probability, likely } of explanations)
          for (const one of likely) {
            const name = placeName(one.place);
            listed.set(name, (listed.get(name) ?? 0) + probability * one.probability);
          }
        for (const [name, chance] of listed)
          expect(chance).toBeLessThanOrEqual((whole.get(name) ?? 0) + 1e-9);
      }),
      FEWER_RUNS,
    );
  });
});

describe('locate, on arbitrary drawings and evidence', () => {
  it('gives chances that are finite and sum to one', () => {
    fc.assert(
      fc.property(requests, (request) => {
        expectSound(locate(request));
      }),
      RUNS,
    );
  });

  it('does not depend on the order of observations, not even in the last digit', () => {
    fc.assert(
      fc.property(explained, fc.infiniteStream(fc.nat()), (request, stream) => {
        const shuffled = (request.observations ?? [])
          .map((observation) => [stream.next().value as number, observation] as const)
          .sort(([a], [b]) => a - b)
          .map(([, observation]) => observation);
        // What stands against the rest is told by its place in the list, which is another one here.
        const { againstTheRest: _, ...answer } = locate({ ...request, observations: shuffled });
        const { againstTheRest: __, ...expected } = locate(request);
        expect(answer).toEqual(expected);
      }),
      FEWER_RUNS,
    );
  });

  it('does not depend on the order of trunks and nodes', () => {
    fc.assert(
      fc.property(explained, (request) => {
        const reversed = [...request.trunks]
          .reverse()
          .map((trunk) => ({ ...trunk, nodes: [...trunk.nodes].reverse() }));
        expect(locate({ ...request, trunks: reversed })).toEqual(locate(request));
      }),
      FEWER_RUNS,
    );
  });

  it('does not depend on names', () => {
    // Names that sort the other way round.
    const rename = (id: string) =>
      [...id].map((c) => String.fromCharCode(200 - c.charCodeAt(0))).join('');
    fc.assert(
      fc.property(requests, (request) => {
        const renamed = {
          ...request,
          trunks: request.trunks.map((trunk) => ({
            id: rename(trunk.id),
            nodes: trunk.nodes.map((node) => ({
              ...node,
              id: rename(node.id),
              fedFrom: typeof node.fedFrom === 'string' ? rename(node.fedFrom) : node.fedFrom,
            })),
          })),
          observations: (request.observations ?? []).map((o) => ({
            ...o,
            trunk: rename(o.trunk),
            node: rename(o.node),
            informant: o.informant && {
              ...o.informant,
              id: o.informant.id === undefined ? undefined : rename(o.informant.id),
            },
          })),
        };
        const back = Object.fromEntries(
          Object.entries(named(locate(renamed))).map(([name, value]) => {
            const words = name.split(' ').map((word) => {
              const old = rename(word);
              return /^[ABC]\d*$/.test(old) ? old : word;
            });
            return [words.join(' '), value];
          }),
        );
        expect(largestDifference(named(locate(request)), back).difference).toBeLessThan(1e-9);
      }),
      RUNS,
    );
  });

  it('learns nothing about the rest from a branch that cannot fail and has no evidence', () => {
    fc.assert(
      fc.property(requests, fc.nat(100), (request, at) => {
        const [trunk] = request.trunks;
        if (!trunk || request.unmentioned) return;
        const feeder = trunk.nodes[at % trunk.nodes.length];
        const branch = [
          { id: 'Z1', kind: 'junction-box' as const, cableMetres: 40, exposureDays: 0 },
          { id: 'Z2', kind: 'station' as const, cableMetres: 7, exposureDays: 0, fedFrom: 'Z1' },
        ];
        const grown = {
          ...trunk,
          nodes: [...trunk.nodes, { ...branch[0]!, fedFrom: feeder?.id }, branch[1]!],
        };
        const before = named(locate(request));
        const after = named(locate({ ...request, trunks: [grown, ...request.trunks.slice(1)] }));
        for (const [name, value] of Object.entries(before))
          expect(Math.abs((after[name] ?? 0) - value)).toBeLessThan(1e-9);
      }),
      RUNS,
    );
  });

  it('learns nothing from a branch that can fail in any way but by a short', () => {
    const rates = {
      junction: { parted: 0.01, 'open-speech': 0.02 },
      cablePerMetre: {},
      station: { dead: 0.1 },
    };
    fc.assert(
      fc.property(requests, (request) => {
        const [trunk] = request.trunks;
        if (!trunk || request.unmentioned) return;
        const grown = {
          ...trunk,
          nodes: [
            ...trunk.nodes,
            { id: 'Z1', kind: 'station' as const, cableMetres: 40, fedFrom: trunk.nodes[0]?.id },
          ],
        };
        const before = named(locate({ ...request, rates }));
        const after = named(
          locate({ ...request, rates, trunks: [grown, ...request.trunks.slice(1)] }),
        );
        for (const [name, value] of Object.entries(before))
          expect(Math.abs((after[name] ?? 0) - value)).toBeLessThan(1e-9);
      }),
      RUNS,
    );
  });

  it('answers or gives a typed error with rates and report rates of any size', () => {
    const rate = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1e6, noNaN: true }));
    const rates = fc.record({
      headEnd: fc.record({ power: rate, 'bell-source': rate }),
      port: fc.record({ 'no-output': rate }),
      station: fc.record({ dead: rate, 'short-supply': rate }),
      junction: fc.record({ parted: rate, 'short-speech': rate, resistive: rate }),
      cablePerMetre: fc.record({ 'open-supply': rate, 'short-select': rate }),
    });
    fc.assert(
      fc.property(requests, rates, fc.boolean(), (request, extreme, certain) => {
        const unmentioned = certain
          ? { reportRate: 1, functions: ['lamp' as const, 'bell' as const] }
          : undefined;
        try {
          expectSound(locate({ ...request, rates: extreme, unmentioned }));
        } catch (error) {
          if (!(error instanceof ImpossibleEvidence)) throw error;
        }
      }),
      RUNS,
    );
  });

  it('with readings of every kind gives chances that are finite and sum to one, or a typed error', () => {
    const read = requests.chain((request) =>
      readingsOf(request.trunks).map((evidence) => ({ ...request, ...evidence })),
    );
    let answered = 0;
    fc.assert(
      fc.property(read, (request) => {
        try {
          expectSound(locate(request), Infinity);
          answered++;
        } catch (error) {
          if (!(error instanceof InvalidLocateRequest)) throw error;
        }
      }),
      RUNS,
    );
    expect(answered).toBeGreaterThan(RUNS.numRuns / 2);
  });

  it('with readings of a trunk in a row answers as with a branch that cannot fail, where it looks for the nearest short', () => {
    const rows = requests
      .map(({ unmentioned: _, ...request }) => ({
        ...request,
        trunks: request.trunks.map((trunk) => ({
          ...trunk,
          nodes: trunk.nodes.map(({ cableMetres, ...node }) => ({
            ...node,
            fedFrom: undefined,
            cableMetres: 20 + (cableMetres % 100),
          })),
        })),
      }))
      .chain((request) =>
        readingsOf(request.trunks).map((evidence) => ({ ...request, ...evidence })),
      );
    const cannotFail = { cableMetres: 0, exposureDays: 0, fedFrom: null };
    let answered = 0;
    fc.assert(
      fc.property(rows, (request) => {
        const trunks = request.trunks.map((trunk) => ({
          ...trunk,
          nodes: [
            ...trunk.nodes,
            { id: `${trunk.id} beside`, kind: 'junction-box' as const, ...cannotFail },
          ],
        }));
        const answerTo = (asked: object) => {
          try {
            return named(locate(asked));
          } catch (error) {
            if (!(error instanceof InvalidLocateRequest)) throw error;
            return {};
          }
        };
        const inRow = answerTo(request);
        const beside = answerTo({ ...request, trunks });
        for (const [name, value] of Object.entries(inRow))
          expect(Math.abs((beside[name] ?? 0) - value)).toBeLessThan(1e-9);
        if (request.readings.some(({ kind }) => kind === 'loop-ohms') && 'logEvidence' in inRow)
          answered++;
      }),
      RUNS,
    );
    expect(answered).toBeGreaterThan(RUNS.numRuns / 4);
  });

  it('does not depend on the order of readings, not even in the last digit', () => {
    const read = requests.chain((request) =>
      readingsOf(request.trunks).map((evidence) => ({ ...request, ...evidence })),
    );
    const answer = (request: object) => {
      try {
        return locate(request);
      } catch (error) {
        if (!(error instanceof InvalidLocateRequest)) throw error;
        return 'refused';
      }
    };
    fc.assert(
      fc.property(read, (request) => {
        const readings = [...request.readings].reverse();
        expect(answer({ ...request, readings })).toEqual(answer(request));
      }),
      RUNS,
    );
  });
});
