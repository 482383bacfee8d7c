import { describe, expect, it } from '@jest/globals';
import { pointClasses } from '#app/locator/causes/causes-by-class.js';
import { atStation, pointsOf } from '#app/locator/causes/point.js';
import { WeakFeeds } from '#app/locator/causes/weak-feeds.js';
import type { LocateRequest } from '#app/locator/index.js';
import { weighEvidence } from '#app/locator/posterior/weigh-evidence.js';
import { readRequest } from '#app/locator/request/read-request.js';
import { siteModel } from '#app/locator/sweep/site.js';
import { ROOMS_IN_A_ROW, station } from './request-builders.js';

/** Rooms in a row: from one on announcements are weak, before it they are heard. */
function weakFrom(first: number): LocateRequest {
  return readRequest({
    trunks: [{ id: 'A', nodes: ROOMS_IN_A_ROW.map((id) => station(id, 12)) }],
    exposureDays: 91,
    observations: ROOMS_IN_A_ROW.map((node, n) => ({
      trunk: 'A',
      node,
      function: 'announcement',
      outcome: n + 1 < first ? 'works' : 'weak',
      informant: { kind: 'technician' },
    })),
  });
}

describe('the first bad joint on the way to a point', () => {
  it('adds up to the chance that the point is only weak, and the way ends where nothing of it is left', () => {
    const request = weakFrom(30);
    const site = siteModel(request);
    const points = pointsOf(request, site);
    const swept = weighEvidence(site, points)?.swept;
    if (!swept) throw new Error('nothing is impossible here');
    const feeds = new WeakFeeds(swept, 0);
    let shorter = 0;
    for (const { points: alike, working } of pointClasses(swept, 0, points))
      for (const point of alike) {
        const { weak } = atStation(swept, point, working);
        const whole = feeds.to(point, working, Infinity);
        const found = feeds.to(point, working, weak);
        expect(whole.reduce((sum, mass) => sum + mass, 0)).toBeCloseTo(weak, 13);
        found.forEach((mass, at) => {
          expect(mass).toBeCloseTo(whole[at] ?? NaN, 12);
        });
        shorter += found.findLastIndex((mass) => mass > 0) < whole.length - 30 ? 1 : 0;
      }
    expect(points.length).toBeGreaterThan(10);
    expect(shorter).toBe(points.length);
  });
});
