import { DEFAULT_PLAN } from './default-plan.js';
import type { HeadEndMode, PortMode, SpanMode, StationMode } from './modes.js';

/**
 * Faults per year, by mode; cable per metre and year. A mode that a table leaves out does not occur. A rate of GROUP_MODES
 * is that of each group.
 */
export interface RateTables {
  readonly headEnd: Readonly<Partial<Record<HeadEndMode, number>>>;
  readonly port: Readonly<Partial<Record<PortMode, number>>>;
  readonly station: Readonly<Partial<Record<StationMode, number>>>;
  readonly junction: Readonly<Partial<Record<SpanMode, number>>>;
  readonly cablePerMetre: Readonly<Partial<Record<SpanMode, number>>>;
}

export const DEFAULT_RATES: RateTables = DEFAULT_PLAN.rates;
