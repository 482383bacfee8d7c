import { describe, expect, it } from '@jest/globals';
import type { ApiClient } from './api-client.js';
import { managerLine } from './manager-line.js';

describe('what the manager of the demo reads', () => {
  it('is said also once whoever tried the demo has closed its ticket', async () => {
    const api = { get: () => Promise.resolve({ items: [] }) } as unknown as ApiClient;
    const line = await managerLine(api, 's1', [], new Date('2026-03-02T08:00:00Z'));
    expect(line).toBe('The ticket is closed: nothing is to be planned for it.');
  });
});
