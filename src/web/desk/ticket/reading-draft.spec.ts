import { describe, expect, it } from '@jest/globals';
import { loadDeskWords } from '../words/loaded.js';

// What says something is imported once the words are there.
await loadDeskWords('en');
const { emptyReading, readingOf } = await import('./reading-draft.js');

const node = { trunk: 'A', node: 'A9' };
const empty = emptyReading('A');
const fields = (made: ReturnType<typeof readingOf>) =>
  'errors' in made ? made.errors.map(({ field }) => field) : [];

describe('readingOf', () => {
  it('makes volts of what was typed, with a comma too, and the uncertainty of a usual meter', () => {
    expect(readingOf({ ...empty, node, number: ' 18,2 ' })).toEqual({
      reading: { kind: 'supply-volts', ...node, volts: 18.2, uncertaintyVolts: 0.18 },
    });
  });

  it('makes ohms of a loop, with an uncertainty of one’s own', () => {
    const draft = { ...empty, kind: 'loop-ohms' as const, core: 'speech' as const };
    expect(readingOf({ ...draft, number: '4.2', uncertainty: '0,5' })).toEqual({
      reading: { kind: 'loop-ohms', trunk: 'A', core: 'speech', ohms: 4.2, uncertaintyOhms: 0.5 },
    });
  });

  it('makes a test of continuity from the head-end', () => {
    const draft = { ...empty, kind: 'continuity' as const, node, passes: false };
    expect(readingOf(draft)).toEqual({
      reading: {
        kind: 'continuity',
        trunk: 'A',
        from: null,
        to: 'A9',
        cores: ['supply', 'return'],
        passes: false,
      },
    });
  });

  it('says all that is missing at once, each at its field', () => {
    expect(fields(readingOf({ ...empty, number: 'a lot', uncertainty: '0' }))).toEqual([
      '/reading/node',
      '/reading/volts',
      '/reading/uncertaintyVolts',
    ]);
    expect(fields(readingOf({ ...empty, kind: 'loop-ohms' }))).toEqual(['/reading/ohms']);
    expect(fields(readingOf({ ...empty, kind: 'continuity', cores: [] }))).toEqual([
      '/reading/to',
      '/reading/cores',
    ]);
  });
});
