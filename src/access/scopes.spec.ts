import { describe, expect, it } from '@jest/globals';
import { scopesAllow } from './scopes.js';

describe('scopesAllow', () => {
  it('lets a reading scope read its own area and nothing else', () => {
    expect(scopesAllow(['sites:read'], 'sites', false)).toBe(true);
    expect(scopesAllow(['sites:read'], 'sites', true)).toBe(false);
    expect(scopesAllow(['sites:read'], 'people', false)).toBe(false);
  });

  it('lets a writing scope read as well', () => {
    expect(scopesAllow(['tickets:write'], 'tickets', false)).toBe(true);
    expect(scopesAllow(['tickets:write'], 'tickets', true)).toBe(true);
  });

  it('allows nothing without scopes', () => {
    expect(scopesAllow([], 'locate', false)).toBe(false);
  });
});
