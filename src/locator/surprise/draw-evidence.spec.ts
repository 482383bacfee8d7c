import { describe, expect, it } from '@jest/globals';
import type { LocateRequest } from '../request/locate-request.js';
import { siteModel, type SiteModel } from '../sweep/site.js';
import { logEvidenceOf } from '../sweep/sweep-site.js';
import type { Random } from './draw-conditions.js';
import { drawEvidence } from './draw-evidence.js';

/** Two trunks, a tee, shorts, weak feeds, a caller who may be confused, rooms that nobody mentioned. */
const REQUEST: LocateRequest = {
  trunks: [
    {
      id: 'A',
      nodes: [
        { id: 'A1', kind: 'station', cableMetres: 40 },
        { id: 'A2', kind: 'station', cableMetres: 40 },
        { id: 'A3', kind: 'station', cableMetres: 40, fedFrom: 'A1' },
      ],
    },
    { id: 'B', nodes: [{ id: 'B1', kind: 'station', cableMetres: 40 }] },
  ],
  exposureDays: 365,
  rates: {
    junction: { parted: 0.1, 'short-speech': 0.1, 'open-speech': 0.05, resistive: 0.1 },
    cablePerMetre: { 'short-supply': 0.002, 'open-supply': 0.001 },
  },
  observations: [
    {
      trunk: 'A',
      node: 'A2',
      function: 'bell',
      outcome: 'fails',
      informant: { id: 'x', kind: 'office' },
    },
    {
      trunk: 'B',
      node: 'B1',
      function: 'bell',
      outcome: 'works',
      informant: { id: 'x', kind: 'office' },
    },
    {
      trunk: 'A',
      node: 'A2',
      function: 'lamp',
      outcome: 'fails',
      informant: { kind: 'technician' },
    },
  ],
  unmentioned: { reportRate: 0.4, functions: ['bell'] },
};

/** Uniform on [0, 1), the same for the same seed (mulberry32). */
function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const saidIn = (site: SiteModel) =>
  JSON.stringify(
    site.trunks.map(({ statements }) =>
      statements.map((heard) => heard.map((ofOne) => ofOne.items.map((one) => one.likelihood))),
    ),
  );

describe('simulated evidence', () => {
  it('comes as often as the sweep says it does, given that there is a ticket', () => {
    const site = siteModel(REQUEST);
    const random = seeded(7);
    const seen = new Map<string, { count: number; drawn: SiteModel }>();
    let tickets = 0;
    const draws = 10_000;
    for (let draw = 0; draw < draws; draw++) {
      const drawn = drawEvidence(site, random)?.site();
      if (drawn === undefined) continue;
      tickets++;
      const key = saidIn(drawn);
      const known = seen.get(key);
      if (known) known.count++;
      else seen.set(key, { count: 1, drawn });
    }
    // Pearson's statistic over what is expected often enough; every term has mean near 1.
    const terms = [...seen.values()].flatMap(({ count, drawn }) => {
      // Of what is to come twenty times, so few are seen once in ten thousand times: what is rare is not worked out.
      if (count < 7) return [];
      const mean = draws * Math.exp(logEvidenceOf(drawn));
      return mean < 20 ? [] : [(count - mean) ** 2 / mean];
    });
    expect(terms.length).toBeGreaterThan(20);
    const sum = terms.reduce((total, term) => total + term, 0);
    expect(sum).toBeGreaterThan(terms.length - 3 * Math.sqrt(2 * terms.length));
    expect(sum).toBeLessThan(terms.length + 3 * Math.sqrt(2 * terms.length));
    expect(tickets).toBeLessThan(draws);
  });

  it('has something that does not work among what was told, always', () => {
    const site = siteModel({ ...REQUEST, observations: REQUEST.observations?.slice(1, 2) });
    const random = seeded(8);
    for (let draw = 0; draw < 500; draw++) {
      const drawn = drawEvidence(site, random)?.site();
      const told = drawn?.trunks[1]?.statements[0]?.flatMap(({ items }) => items) ?? [];
      for (const { observation, likelihood, outcomes } of told)
        if (observation >= 0) expect(likelihood).not.toBe(outcomes[0]);
    }
  });
});
