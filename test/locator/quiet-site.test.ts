import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { readRequest } from '#app/locator/request/read-request.js';
import { onlyGroups } from '#app/locator/sweep/head-end-groups.js';
import { quietGroups, quietTrunk } from '#app/locator/sweep/quiet-site.js';
import { siteModel } from '#app/locator/sweep/site.js';
import { trunkLikelihood, type TrunkModel } from '#app/locator/sweep/trunk-model.js';
import { requests } from './arbitrary-requests.js';

/** Where nothing was complained of: all that was known, made anew for the groups that are left. */
function expectSelected(trunk: TrunkModel, quiet: TrunkModel, anew: (typeof quiet)['likelihood']) {
  let compared = 0;
  trunk.points.forEach((functions, n) => {
    if (functions > 0) return;
    expect(quiet.likelihood[n]).toEqual(anew[n]);
    compared++;
  });
  return compared;
}

describe('a quiet site', () => {
  it('knows of its groups what was known of them before', () => {
    let compared = 0;
    let fewer = 0;
    fc.assert(
      fc.property(requests, (arbitrary) => {
        const site = siteModel(readRequest(arbitrary));
        const isQuiet = quietGroups(site);
        const kept = onlyGroups(site.headEnd, (group) => isQuiet[group] === true);
        if (kept.count < site.headEnd.count) fewer++;
        for (const trunk of site.trunks) {
          const quiet = quietTrunk(trunk, kept, isQuiet);
          compared += expectSelected(trunk, quiet, trunkLikelihood(quiet, kept));
        }
      }),
      { seed: 20261128, numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(100);
    expect(fewer).toBeGreaterThan(20);
  });
});
