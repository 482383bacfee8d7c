import { describe, expect, it } from '@jest/globals';
import { type Mark, trunkInText } from './trunk-in-text.js';

const node = (
  code: string,
  fedFrom: string | null,
  kind: 'station' | 'junction-box' = 'station',
) => ({
  node: code,
  kind,
  fedFrom,
  cableMetres: 9.5,
  room: kind === 'station' ? `Room ${code}` : null,
});

describe('trunkInText', () => {
  it('draws a tee with its branch, what was heard, and where to look', () => {
    const trunk = {
      trunk: 'A',
      nodes: [node('1', null), node('T', '1', 'junction-box'), node('2', 'T'), node('3', 'T')],
    };
    const marks: Record<string, Mark> = { '1': 'heard', '2': 'silent', '3': 'not checked' };
    expect(trunkInText(trunk, (code) => marks[code] ?? 'not checked', '2')).toBe(
      [
        'head-end, trunk A',
        '  |   9.5 m  (o) 1     Room 1, heard',
        '  |   9.5 m  -+- T     junction box',
        '  |   #   9.5 m  (x) 2     Room 2, silent   <== look here first',
        '  |   9.5 m  ( ) 3     Room 3',
      ].join('\n'),
    );
  });
});
