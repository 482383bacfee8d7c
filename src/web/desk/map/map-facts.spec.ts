import { describe, expect, it } from '@jest/globals';

import { mapFacts, type MapRead } from './map-facts.js';

const site = (id: string, latitude: number | null) => ({
  id,
  name: id,
  latitude,
  longitude: latitude,
});
const ticket = (number: number, at: string) => ({ number, site: { id: at } });
const person = (personId: string, startLatitude: number | null) => {
  return { personId, name: `Name ${personId}`, startLatitude, startLongitude: startLatitude };
};
const READ = {
  sites: [site('mill', 1), site('lock', 2), site('barn', null), site('abbey', 0)],
  desk: { items: [ticket(7, 'lock'), ticket(5, 'barn'), ticket(3, 'lock')] },
  technicians: [person('t', 4), person('u', null), person('v', null)],
  plan: {
    routes: [
      { technicianId: 't', jobs: [{ siteId: 'mill' }, { siteId: 'gone' }, { siteId: 'lock' }] },
      { technicianId: 'u', jobs: [{ siteId: 'barn' }] },
    ],
  },
} as unknown as MapRead;

describe('what is on the map', () => {
  const facts = mapFacts(READ);

  it('is what is due first, then by name; zero degrees is a place, none is none', () => {
    expect(facts.placed.map((one) => one.site.id)).toEqual(['lock', 'abbey', 'mill']);
    expect(facts.placed[1]!.at).toEqual({ latitude: 0, longitude: 0 });
    expect(facts.unplaced.map((one) => one.site.id)).toEqual(['barn']);
    expect(facts.placed[0]!.tickets.map(({ number }) => number)).toEqual([7, 3]);
  });

  it('is who comes as the how-manieth, and whose days begin where', () => {
    expect(facts.placed[0]!.comes).toEqual([{ technician: 'Name t', order: 3 }]);
    const starts = facts.starts.map(({ technician, at, goesTo }) => {
      return [technician, at?.latitude, ...goesTo.map((one) => one.site.id)];
    });
    // Who begins nowhere and goes nowhere is not on it.
    expect(starts).toEqual([
      ['Name t', 4, 'mill', 'lock'],
      ['Name u', undefined, 'barn'],
    ]);
  });

  it('goes without a plan', () => {
    const { starts, placed } = mapFacts({ ...READ, plan: undefined });
    expect(starts.map(({ technician }) => technician)).toEqual(['Name t']);
    expect(placed.every(({ comes }) => comes.length === 0)).toBe(true);
  });
});
