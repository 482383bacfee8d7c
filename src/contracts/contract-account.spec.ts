import { describe, expect, it } from '@jest/globals';

import { type AccountRow, accountOf } from './contract-account.js';

const CONTRACT = {
  from: '2025-01-01',
  until: '2026-07-02',
  kind: 'comprehensive',
  feeMinor: 365_000,
  currency: 'EUR',
  callOutsPerYear: 1,
} as const;

const ROW: AccountRow = {
  siteId: 'S',
  year: 1,
  plannedVisits: 2,
  callOuts: 3,
  minutesOnSite: 90,
  travelMinutes: 45,
  visitsWithoutTravel: 1,
  parts: [
    { name: 'Wire ferrule', quantity: 4 },
    { name: 'coin cell', quantity: 1 },
  ],
};

const PRICES = {
  currency: 'EUR',
  hourMinor: 6000,
  travelHourMinor: 4000,
  parts: [{ name: 'wire ferrule', minor: 15 }],
};

describe('the account of a contract', () => {
  it('sets hours, ways and parts against the fee, a short year by its days', () => {
    const kept = [
      { year: 1, promise: 'response', state: 'met', count: 2 },
      { year: 1, promise: 'response', state: 'breached', count: 1 },
      { year: 1, promise: 'restore', state: 'paused', count: 1 },
    ];
    const { years, lines } = accountOf(CONTRACT, [ROW, { ...ROW, siteId: 'T' }], kept, PRICES);
    expect(years[0]).toMatchObject({
      feeMinor: 365_000,
      callOuts: 6,
      callOutsIncluded: 1,
      callOutsBeyond: 5,
      labourMinor: 18_000,
      travelMinor: 6000,
      partsMinor: 120,
      unpricedParts: ['coin cell'],
      balanceMinor: 365_000 - 18_000 - 6000 - 120,
      kept: [
        { promise: 'response', met: 2, breached: 1, open: 0 },
        { promise: 'restore', met: 0, breached: 0, open: 1 },
      ],
    });
    expect(lines[0]?.parts[0]).toEqual({ name: 'Wire ferrule', quantity: 4, minor: 60 });
    expect(years[1]).toMatchObject({ from: '2026-01-01', feeMinor: 182_000, callOutsIncluded: 1 });
  });

  it('has no amounts without prices in its currency, and leaves parts out that are paid for besides', () => {
    const other = accountOf(CONTRACT, [ROW], [], { ...PRICES, currency: 'NOK' }).years[0];
    expect(other).toMatchObject({ labourMinor: null, balanceMinor: null, partsMinor: null });
    const labourOnly = { ...CONTRACT, kind: 'labour-only' } as const;
    expect(accountOf(labourOnly, [ROW], [], PRICES).years[0]).toMatchObject({
      partsArePaidFor: true,
      balanceMinor: 365_000 - 9000 - 3000,
    });
  });
});
