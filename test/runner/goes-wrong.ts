import { describe, expect, it } from '@jest/globals';

// Run by kept-runtime.test alone: each of these must be told as failed, but for the first.
describe('a file that goes wrong', () => {
  it('holds', () => {
    expect(1).toBe(1);
  });

  it('does not hold', () => {
    expect(1).toBe(2);
  });

  it('rejects', async () => {
    await expect(Promise.resolve(1)).rejects.toThrow();
  });

  it('throws', () => {
    throw new Error('thrown');
  });

  it('asserts less than it said', () => {
    expect.assertions(1);
  });
});
