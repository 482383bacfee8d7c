import { settingsAmong } from '../../plan/plan-tables.js';
import { quietness } from '../posterior/quietness.js';
import { planOf } from '../request/plan-of.js';
import type { LocateRequest } from '../request/locate-request.js';
import { hasPoints, quietSite } from '../sweep/quiet-site.js';
import { logSweptMass, type SweptSite } from '../sweep/sweep-site.js';

/** Where a mode of the head-end is the likeliest cause, somebody in the office looks there first, whatever that tells. */
export const LIKELY = 0.5;

/** Far more than sums in another order differ by. */
const MARGIN = 0.5;

/**
 * Whether a setting of the head-end may be so likely a cause, by what was told with the trunks whole. It is no likelier a cause
 * than it is at all, which the way up tells: most large sites need not have all their causes told.
 */
export function maySettingBeLikely(
  request: LocateRequest,
  { site, masses: { groups, logEvidence } }: SweptSite,
): boolean {
  const isAllWhole = (request.observations ?? []).every(
    ({ disconnectedBelow }) => disconnectedBelow === undefined,
  );
  if (!isAllWhole) return true;
  const { modes, ofMode, share } = site.headEnd;
  const settings = settingsAmong(planOf(request), modes);
  if (!hasPoints(site)) return false;
  const logQuiet = logSweptMass(quietSite(site));
  const { weight } = quietness(logQuiet, logEvidence, site.falseAlarmRatio).mixing;
  return modes.some((mode, m) => {
    const chance = weight * (groups[ofMode[m + 1] ?? 0] ?? 0) * (share[m + 1] ?? 0);
    return settings.some((setting) => setting === mode) && chance >= LIKELY * MARGIN;
  });
}
