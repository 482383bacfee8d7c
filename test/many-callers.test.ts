// Of callers who contradict each other more are named than can be somebody: the answer says how many count as anybody, and where.
import { expect, test } from '@jest/globals';
import { locateTicket } from '#app/locating/locate-ticket.js';
import type { LocationDto } from '#app/locating/location.dto.js';
import { contradictingTicket } from './bench/contradicting-ticket.js';

function toldBy(callers: number, sittings: number) {
  const ticket = { reports: 3 * callers, callers, rooms: 12, row: 12, sittings };
  return JSON.parse(locateTicket(contradictingTicket(ticket)).answer) as LocationDto;
}

test('of one sitting nothing comes and goes, whoever is somebody', () => {
  const { sittings, intermittentCallersAsAnybody, observationsUsed } = toldBy(25, 1);
  expect({ sittings, intermittentCallersAsAnybody }).toEqual({
    sittings: 1,
    intermittentCallersAsAnybody: 0,
  });
  expect(observationsUsed).toHaveLength(75);
});

test('of several sittings some count as anybody, and all of few are somebody', () => {
  const many = toldBy(25, 4);
  expect(many.sittings).toBe(4);
  expect(many.intermittentCallersAsAnybody).toBeGreaterThan(12);
  expect(many.intermittentCallersAsAnybody).toBeLessThan(25);
  expect(many.surprise?.callersAsAnybody).toBeLessThan(25);
  expect(toldBy(2, 4).intermittentCallersAsAnybody).toBe(0);
});
