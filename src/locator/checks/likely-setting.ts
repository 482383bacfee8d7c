import { quietness } from '../posterior/quietness.js';
import { planOf } from '../request/plan-of.js';
import { hasPoints, quietSite } from '../sweep/quiet-site.js';
import { siteModel } from '../sweep/site.js';
import { massesOf } from '../sweep/sweep-site.js';
import type { ChecksRequest } from './checks-request.js';

/**
 * The most that any setting of the head-end can be the cause of anything: it must be so to be a cause, and leaving out quiet
 * worlds raises a share by `mixing.weight` at most (Quietness). The ways up alone say it, an eighth of the work of the causes.
 */
export function mostOfSettings({ request, errors, expected }: ChecksRequest): number {
  const { settings, allFunctions: apart } = planOf(request);
  const site = siteModel(request, errors, expected, { apart, onlyInQuestion: true });
  const { logEvidence, groups } = massesOf(site);
  if (logEvidence === -Infinity) return 0;
  const { weight } = hasPoints(site)
    ? quietness(massesOf(quietSite(site)).logEvidence, logEvidence, site.falseAlarmRatio).mixing
    : { weight: 1 };
  const { modes, ofMode, share } = site.headEnd;
  return settings.reduce((most, setting) => {
    const at = modes.indexOf(setting) + 1;
    if (at === 0) return most;
    return Math.max(most, (groups[ofMode[at] ?? 0] ?? 0) * (share[at] ?? 0) * weight);
  }, 0);
}
