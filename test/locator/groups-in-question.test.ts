import { Looks } from '#app/locator/sweep/looks.js';
import { DEFAULT_ERROR_RATES } from '#app/plan/error-rates.js';
import { zonesOf } from '#app/locator/sweep/zones.js';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { type LocateRequest, locate } from '#app/locator/index.js';
import { logLeastEvidence } from '#app/locator/sweep/groups-in-question.js';
import { readRequest } from '#app/locator/request/read-request.js';
import { siteModel } from '#app/locator/sweep/site.js';
import { sweepSite, type SweptSite } from '#app/locator/sweep/sweep-site.js';
import { DEFAULT_PLAN } from '#app/plan/default-plan.js';
import { tablesOf } from '#app/plan/plan-tables.js';
import { benchRequest } from '../bench/locator.bench.js';
import { requests } from './arbitrary-requests.js';
import { cases } from '../support/thorough.js';

// What is left out beforehand is held against the whole model, which nothing is left out of. Seeds are fixed.

function swept(request: LocateRequest, onlyInQuestion: boolean): SweptSite | null {
  return sweepSite(siteModel(readRequest(request), undefined, undefined, { onlyInQuestion }));
}

/** By mode of the head-end, ok first. */
function modes({ site, masses }: SweptSite): number[] {
  const { ofMode, share } = site.headEnd;
  return Array.from(ofMode, (group, mode) => masses.groups[group]! * share[mode]!);
}

/** Told over and over, so that the head-end's modes are ruled out. */
const often = fc.tuple(requests, fc.integer({ min: 1, max: 12 })).map(([request, times]) => ({
  ...request,
  readings: [],
  observations: Array.from({ length: times }, () => request.observations ?? []).flat(),
}));

describe('head-end groups that the evidence rules out', () => {
  it('are half of the eight with sixty observations, and change no digit of the answer', () => {
    const request = benchRequest(100, 60);
    const [all, kept] = [swept(request, false)!, swept(request, true)!];
    expect(all.site.headEnd.count).toBe(8);
    expect(kept.site.headEnd.count).toBe(4);
    expect(Math.abs(kept.masses.logEvidence - all.masses.logEvidence)).toBeLessThan(1e-12);
    all.trunks[0]!.spans.forEach((mass, i) => {
      expect(Math.abs(kept.trunks[0]!.spans[i]! - mass)).toBeLessThan(1e-12);
    });
  });

  it('have no more than 1e-17 in the whole model, on arbitrary drawings and evidence', () => {
    let leftOut = 0;
    fc.assert(
      fc.property(often, (request) => {
        const [all, kept] = [swept(request, false), swept(request, true)];
        if (!all || !kept) return expect(kept).toBe(all);
        const chances = modes(kept);
        modes(all).forEach((chance, mode) => {
          if (chances[mode] === 0 && chance > 0) {
            leftOut++;
            expect(chance).toBeLessThan(1e-17);
          } else expect(chances[mode]).toBeCloseTo(chance, 12);
        });
      }),
      { seed: 7, numRuns: cases({ all: 150, usual: 50 }) },
    );
    expect(leftOut).toBeGreaterThan(cases({ all: 50, usual: 15 }));
  });

  it('are held against less than the evidence has, as near as the other ways to explain it leave', () => {
    let nearest = Infinity;
    fc.assert(
      fc.property(often, (request) => {
        const all = swept(request, false);
        if (!all) return;
        const { trunks, headEnd, flags, rates } = all.site;
        const statements = { at: trunks.map((trunk) => trunk.statements), flags };
        const trees = trunks.map((trunk) => trunk.tree);
        const years = request.exposureDays / 365.25;
        const least = logLeastEvidence({
          plan: tablesOf(DEFAULT_PLAN),
          headEnd,
          trees,
          zones: zonesOf(trees),
          statements,
          looks: new Looks(DEFAULT_PLAN, [], DEFAULT_ERROR_RATES),
          rates,
          years,
        });
        expect(least).toBeLessThanOrEqual(all.masses.logEvidence + 1e-9);
        nearest = Math.min(nearest, all.masses.logEvidence - least);
      }),
      { seed: 8, numRuns: cases({ all: 150, usual: 50 }) },
    );
    expect(nearest).toBeLessThan(0.1);
  });

  it('are none where a sound room and a dead one are all that is told', () => {
    const request = benchRequest(20, 2);
    expect(swept(request, true)!.site.headEnd.count).toBe(
      swept(request, false)!.site.headEnd.count,
    );
    const [headEnd] = locate(request).places.filter(({ place }) => place.kind === 'head-end');
    expect(Math.min(...Object.values(headEnd!.components[0]!.modes))).toBeGreaterThan(0);
  });
});
