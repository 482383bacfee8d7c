import { describe, expect, it } from '@jest/globals';

import { isConnectionLost, readPassingFailure, sqlStateOf } from './database-failure.js';

const withCode = (code: string, message = 'said') => Object.assign(new Error(message), { code });

describe('a failure of the database', () => {
  it('is one that passes where the database is away', () => {
    for (const code of ['ECONNREFUSED', 'ETIMEDOUT', '08006', '57P01', '57P03', '53300', '3D000']) {
      expect(readPassingFailure(withCode(code))).toEqual({ retryAfterSeconds: 5, reason: 'said' });
      expect(isConnectionLost({ driverError: withCode(code) })).toBe(true);
    }
    const lost = new Error('Connection terminated unexpectedly');
    expect(readPassingFailure(lost)).toMatchObject({ retryAfterSeconds: 5 });
    expect(readPassingFailure(withCode('ECONNREFUSED', ''))?.reason).toBe('ECONNREFUSED');
  });

  it('is one that passes sooner where the database is busy', () => {
    for (const code of ['40001', '40P01', '55P03', '57014']) {
      expect(readPassingFailure({ driverError: withCode(code) })?.retryAfterSeconds).toBe(1);
      expect(isConnectionLost(withCode(code))).toBe(false);
    }
  });

  it('is none that passes otherwise', () => {
    for (const error of [withCode('23505'), withCode('42P01'), new Error('x'), 'text', null, 7]) {
      expect(readPassingFailure(error)).toBeUndefined();
    }
    expect(sqlStateOf({ driverError: withCode('23505') })).toBe('23505');
    expect(sqlStateOf(withCode('ENOENT'))).toBeUndefined();
  });
});
