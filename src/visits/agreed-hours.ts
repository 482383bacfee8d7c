import type { FieldError } from '../shared/domain-error.js';

/** A day, as a site's calendar has it. */
export type DayAtSite = Pick<PlannedTime, 'siteId' | 'on'>;

/** When a visit is to be made, by the site's clock. */
export interface PlannedTime {
  siteId: string;
  kind: 'planned' | 'call-out';
  upkeep: boolean;
  /** The day. */
  on: string;
  /** "08:30"; both or none. */
  fromTime: string | null;
  untilTime: string | null;
}

/**
 * Knows when visits to a site are agreed. Visits know no contracts: the feature that does gives this to the module.
 */
export abstract class AgreedHours {
  /** The names of the public holidays that days are at their sites, in order; null: none. Asked outside of any transaction. */
  abstract holidaysOn(days: readonly DayAtSite[]): Promise<(string | null)[]>;

  /** What of a visit's time was not agreed, by field; with the public holiday that its day is, if any. */
  abstract refuse(planned: PlannedTime, holiday: string | null): Promise<FieldError[]>;
}
