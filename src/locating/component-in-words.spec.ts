import { describe, expect, it } from '@jest/globals';
import { componentInWords } from './component-in-words.js';

const name = (_trunk: string, node: string) => `Room ${node}`;
const span = { kind: 'span', trunk: 'A', from: '12', to: '13' } as const;

describe('componentInWords', () => {
  it('names the terminals by room and side', () => {
    expect(componentInWords('junction-out', span, name)).toBe('terminals at Room 12 OUT');
    expect(componentInWords('cable', span, name)).toBe('cable');
    expect(componentInWords('junction-in', span, name)).toBe('terminals at Room 13 IN');
    expect(componentInWords('junction-out', { ...span, from: null }, name)).toBe(
      'terminals at the head-end, trunk A',
    );
    expect(componentInWords('head-end', { kind: 'head-end' }, name)).toBe('head-end');
  });
});
