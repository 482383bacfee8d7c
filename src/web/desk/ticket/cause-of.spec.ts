import { describe, expect, it } from '@jest/globals';
import type { CauseOf, TroubleOf } from './cause-of.js';
import { loadDeskWords } from '../words/loaded.js';

// What says something is imported once the words are there.
await loadDeskWords('en');
const { firstToShow, movedPlaces, namesOn, placeName, shownCauses } = await import('./cause-of.js');
const { causeInWords } = await import('./ticket-words.js');

const span = (to: string) => ({ kind: 'span' as const, trunk: 'A', from: 'A1', to });

describe('what is shown of causes', () => {
  it('adds up: small causes are one with the rest', () => {
    const causes = [
      { cause: { kind: 'nothing' }, probability: 0.6 },
      { cause: { kind: 'rest' }, probability: 0.391 },
      { cause: { kind: 'port', trunk: 'A' }, probability: 0.009 },
    ] as TroubleOf['causes'];
    const shown = shownCauses({ causes } as TroubleOf);
    expect(shown.map(({ cause }) => cause.kind)).toEqual(['nothing', 'rest']);
    expect(shown[1]?.probability).toBeCloseTo(0.4, 12);
  });

  it('begins with a room that is silent, and not with a report that is mistaken', () => {
    const by = (nothing: number) =>
      ({
        causes: [
          { cause: { kind: 'nothing' }, probability: nothing },
          { cause: { kind: 'rest' }, probability: 1 - nothing },
        ],
      }) as TroubleOf;
    expect(firstToShow([by(0.9), by(0.2), by(0.1)])).toBe(1);
    expect(firstToShow([by(0.9), by(0.8)])).toBe(0);
    expect(firstToShow([])).toBe(0);
  });

  it('names each kind of cause by its rooms', () => {
    const stations = ['A1', 'A2'].map((node) => ({
      node,
      kind: 'station' as const,
      fedFrom: null,
      room: node === 'A1' ? 'Room 1' : null,
      isOut: false,
      cableMetres: 1,
    }));
    const nameOf = namesOn([{ trunk: 'A', name: '', nodes: stations }]);
    const words = (cause: CauseOf) => causeInWords(cause, nameOf);
    expect(words({ ...span('A2'), component: 'junction-out' })).toBe(
      'the outgoing terminals at Room 1',
    );
    expect(words({ ...span('A2'), component: 'junction-in' })).toBe(
      'the incoming terminals at Unit A2',
    );
    expect(words({ ...span('A2'), component: 'cable' })).toBe('the cable from Room 1 to Unit A2');
    expect(words({ kind: 'head-end', mode: 'power' })).toBe('the power of the head-end');
    expect(words({ kind: 'station', trunk: 'A', node: 'A1', mode: 'volume-down' })).toBe(
      'Room 1: the volume turned down there',
    );
    expect(words({ kind: 'station', trunk: 'A', node: 'A1' })).toBe('the unit in Room 1');
    expect(placeName({ ...span('A2'), from: null }, nameOf)).toBe(
      'between the head-end and Unit A2',
    );
  });
});

describe('movedPlaces', () => {
  it('lists what moves, most first, what came and went among it', () => {
    const at = (to: string, probability: number) => ({ place: span(to), probability });
    const moved = movedPlaces(
      [at('A2', 0.5), at('A3', 0.3), at('A4', 0.1)],
      [at('A2', 0.1), at('A3', 0.301), at('A4', 0.2), at('A5', 0.05)],
    );
    expect(moved.map(({ place, before, after }) => [place.to, before, after])).toEqual([
      ['A2', 0.5, 0.1],
      ['A4', 0.1, 0.2],
      ['A5', 0, 0.05],
    ]);
  });
});
