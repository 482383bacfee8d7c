import { describe, expect, it } from '@jest/globals';
import { jointInWords } from './joint-in-words.js';

const rooms = (_trunk: string, node: string) => node.replace('A', 'Room ');
const joint = {
  place: { kind: 'span', trunk: 'A', from: 'A8', to: 'A9' } as const,
  probability: 0.719,
  ohms: { median: 3.04, low: 1.42, high: 12.7 },
};

describe('a bad joint in words', () => {
  it('says where, how big and how likely', () => {
    expect(jointInWords({ ...joint, component: 'junction-in' }, rooms)).toBe(
      'a bad joint in the terminals at Room 9 IN on trunk A, about 3 ohm (1.4 to 13), 72 %',
    );
    expect(jointInWords({ ...joint, component: 'cable' }, rooms)).toBe(
      'a bad joint in the cable between Room 8 and Room 9 on trunk A, about 3 ohm (1.4 to 13), 72 %',
    );
    const first = { ...joint, place: { ...joint.place, from: null }, component: 'junction-out' };
    expect(jointInWords(first as Parameters<typeof jointInWords>[0], rooms)).toBe(
      'a bad joint in the terminals at the head-end, trunk A, about 3 ohm (1.4 to 13), 72 %',
    );
  });
});
