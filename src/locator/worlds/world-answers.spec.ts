import { describe, expect, it } from '@jest/globals';
import type { RequestNode } from '../request/locate-request.js';
import { worldReader } from './world-answers.js';

const station = (id: string, cableMetres: number, fedFrom?: string): RequestNode => {
  return { id, kind: 'station', cableMetres, fedFrom };
};
const box = (id: string, cableMetres: number): RequestNode => {
  return { id, kind: 'junction-box', cableMetres };
};

describe('what is so in a world', () => {
  const read = worldReader({
    exposureDays: 90,
    trunks: [
      { id: 'A', nodes: [station('A1', 5), station('A2', 5), box('T', 5), station('A3', 5, 'T')] },
    ],
  });
  const span = (
    to: string,
    from: string | null,
    component: 'cable' | 'junction-in',
    mode: string,
  ) => ({ place: { kind: 'span', trunk: 'A', from, to }, component, mode }) as const;

  it('an open core takes its functions from there on', () => {
    const answers = read({ faults: [span('A2', 'A1', 'cable', 'open-speech')] });
    expect(answers.condition('A', 'A1', 'bell')).toBe('good');
    expect(answers.condition('A', 'A2', 'bell')).toBe('dead');
    expect(answers.condition('A', 'A3', 'lamp')).toBe('good');
    expect(answers.feed('A', 'T')).toEqual({ cores: ['supply', 'select', 'return'], weak: false });
    const place = { kind: 'span', trunk: 'A', from: 'A1', to: 'A2' } as const;
    expect(answers.isFaulty(place)).toBe(true);
    expect(answers.modeOf(place, 'cable')).toBe('open-speech');
    expect(answers.modeOf(place, 'junction-in')).toBeNull();
  });

  it('a short is gone while everything past a room before it is disconnected', () => {
    const answers = read({ faults: [span('A3', 'T', 'junction-in', 'short-supply')] });
    expect(answers.shortsSeen('A')).toEqual(['supply']);
    expect(answers.condition('A', 'A1', 'lamp')).toBe('dead');
    expect(answers.shortsSeen('A', 'A2')).toEqual([]);
    expect(answers.condition('A', 'A1', 'lamp', 'A2')).toBe('good');
    expect(answers.condition('A', 'A3', 'lamp', 'A2')).toBe('dead');
    expect(answers.shortsSeen('A', 'A3')).toEqual(['supply']);
  });

  it('head-end, port and station have their say', () => {
    const station1 = { kind: 'station', trunk: 'A', node: 'A1' } as const;
    const answers = read({
      faults: [
        { place: { kind: 'head-end' }, component: 'head-end', mode: 'bell-source' },
        { place: station1, component: 'station', mode: 'lamp' },
        span('A2', 'A1', 'cable', 'resistive'),
      ],
    });
    expect(answers.condition('A', 'A1', 'bell')).toBe('dead');
    expect(answers.condition('A', 'A1', 'lamp')).toBe('dead');
    expect(answers.condition('A', 'A2', 'lamp')).toBe('weak');
    const port = {
      place: { kind: 'port', trunk: 'A' },
      component: 'port',
      mode: 'no-output',
    } as const;
    expect(read({ faults: [port] }).condition('A', 'A1', 'lamp')).toBe('dead');
    expect(() => answers.condition('A', 'A9', 'lamp')).toThrow('"A9" is not a node');
  });
});
