import { describe, expect, it } from '@jest/globals';

import { joinStatements } from './join-statements.js';

describe('joining statements', () => {
  it('leaves one alone, and numbers the parameters of several through', () => {
    const one = { text: 'DELETE FROM a WHERE id = $1', values: ['x'] };
    const other = { text: 'UPDATE b SET c = $2, d = $10 WHERE id = $1', values: [1, 2] };
    expect(joinStatements([one])).toBe(one);
    expect(joinStatements([one, other, one])).toEqual({
      text:
        'WITH write_0 AS (DELETE FROM a WHERE id = $1), ' +
        'write_1 AS (UPDATE b SET c = $3, d = $11 WHERE id = $2), ' +
        'write_2 AS (DELETE FROM a WHERE id = $4) SELECT',
      values: ['x', 1, 2, 'x'],
    });
  });

  it('reads beside them by parameters of its own', () => {
    const one = { text: 'DELETE FROM a WHERE id = $1', values: ['x'] };
    const read = { text: 'SELECT count(*) FROM a WHERE id = $1', values: ['y'] };
    expect(joinStatements([one], read)).toEqual({
      text: 'WITH write_0 AS (DELETE FROM a WHERE id = $1) SELECT count(*) FROM a WHERE id = $2',
      values: ['x', 'y'],
    });
  });
});
