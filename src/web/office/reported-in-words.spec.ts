import { describe, expect, it } from '@jest/globals';
import { officeWordsIn, pageWordsIn } from '#app/words/index.js';
import { reportedInWords } from './reported-in-words.js';

const words = { page: pageWordsIn('en'), office: officeWordsIn('en') };

describe('reportedInWords', () => {
  it('says for each thing that was tried where it does not work, in the order of the rooms', () => {
    const rooms = ['A1', 'A2', 'A3'].map((node) => ({
      trunk: 'A',
      node,
      room: node === 'A3' ? null : `Room ${node}`,
      block: null,
      floor: null,
      groups: [],
    }));
    const point = (node: string, name: 'bell' | 'lamp') => ({ trunk: 'A', node, function: name });
    const bells = ['A9', 'A3', 'A2'].map((node) => point(node, 'bell'));
    expect(reportedInWords([point('A1', 'lamp'), ...bells], [], rooms, words)).toEqual([
      'Bell, not working in: Room A2, Unit A3, Unit A9',
      'Lamp on the unit, not working in: Room A1',
    ]);
    expect(
      reportedInWords([...bells, point('A1', 'lamp')], [point('A2', 'bell')], rooms, words),
    ).toEqual([
      'Bell, not working in: Unit A3, Unit A9',
      'Bell, said to work again in: Room A2. The technician will try it there.',
      'Lamp on the unit, not working in: Room A1',
    ]);
  });
});
