import type { FieldError } from '../shared/domain-error.js';

/** When a visit is to be made, by the site's clock. */
export interface PlannedTime {
  siteId: string;
  kind: 'planned' | 'call-out';
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
  /** What of a planned visit's time was not agreed, by field. */
  abstract refuse(planned: PlannedTime): Promise<FieldError[]>;
}
