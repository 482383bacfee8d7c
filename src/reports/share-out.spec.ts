import { describe, expect, it } from '@jest/globals';
import type { Outcome } from '../plan/error-rates.js';
import { shareOut } from './share-out.js';

const said = (trunk: string, outcome: Outcome | 'not-checked') => ({
  reported: { trunk, outcome },
});

describe('shareOut', () => {
  it('opens one ticket for all of it when none is open', () => {
    const sent = [said('A', 'fails'), said('B', 'works')];
    expect(shareOut(sent, [])).toEqual([{ ticket: null, sent }]);
  });

  it('joins what is about a trunk with an open ticket to that ticket', () => {
    const [a, b] = [said('A', 'fails'), said('B', 'fails')];
    const open = [
      { ticket: 7, trunks: ['A'] },
      { ticket: 8, trunks: ['B', 'C'] },
    ];
    expect(shareOut([b, a], open)).toEqual([
      { ticket: 7, sent: [a] },
      { ticket: 8, sent: [b] },
    ]);
  });

  it('lets the older of two tickets for a trunk have it', () => {
    const open = [
      { ticket: 7, trunks: ['A'] },
      { ticket: 8, trunks: ['A'] },
    ];
    expect(shareOut([said('A', 'fails')], open).map(({ ticket }) => ticket)).toEqual([7]);
  });

  it('opens a ticket for what fails on another trunk', () => {
    const [a, b] = [said('A', 'works'), said('B', 'weak')];
    expect(shareOut([a, b], [{ ticket: 7, trunks: ['A'] }])).toEqual([
      { ticket: 7, sent: [a] },
      { ticket: null, sent: [b] },
    ]);
  });

  it('opens none for what works elsewhere: it goes along as evidence', () => {
    const [a, b, c] = [said('B', 'works'), said('A', 'fails'), said('C', 'not-checked')];
    expect(shareOut([a, b, c], [{ ticket: 7, trunks: ['A'] }])).toEqual([
      { ticket: 7, sent: [b, a, c] },
    ]);
  });
});
