const MS_PER_DAY = 86_400_000;

/** When nothing is known of the past, as if proven a year ago; a day is the least there can be. */
const DAYS_IF_UNKNOWN = 365;
const LEAST_DAYS = 1;

/**
 * The days since a site's parts were last proven good (fault model, section 7, in its simplest
 * form): since the walk test that closed its last ticket, else since its oldest unit was installed.
 */
export function exposureSince(
  openedAt: Date,
  provenAt: Date | null,
  installedOn: string | null,
): { days: number; reason: string } {
  if (provenAt !== null) {
    return { days: daysBetween(provenAt, openedAt), reason: 'the last closed ticket of this site' };
  }
  if (installedOn !== null) {
    return {
      days: daysBetween(new Date(installedOn), openedAt),
      reason: 'its oldest unit was installed',
    };
  }
  return { days: DAYS_IF_UNKNOWN, reason: 'a year ago, because nothing is known of its past' };
}

function daysBetween(from: Date, to: Date): number {
  return Math.max(LEAST_DAYS, (to.getTime() - from.getTime()) / MS_PER_DAY);
}
