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

/** Starting values (fault model, section 2): invented, to be replaced by a firm's own record. */
export const DEFAULT_RATES: RateTables = {
  headEnd: {
    power: 0.08,
    amplifier: 0.04,
    receiver: 0.02,
    selector: 0.02,
    'bell-source': 0.06,
    microphone: 0.05,
    'line-input': 0.02,
    'group-off': 0.02,
    'group-bell-off': 0.01,
    'group-announcement-off': 0.01,
  },
  port: { 'no-output': 0.02 },
  station: {
    dead: 0.012,
    speaker: 0.006,
    'volume-down': 0.03,
    microphone: 0.008,
    address: 0.002,
    lamp: 0.004,
    'bell-setting': 0.003,
    'announcement-setting': 0.003,
    'music-setting': 0.003,
    'short-supply': 0.001,
  },
  junction: {
    parted: 0.002,
    'open-supply': 0.0015,
    'open-return': 0.0015,
    'open-speech': 0.0015,
    'open-select': 0.0015,
    'short-supply': 0.0002,
    'short-speech': 0.0002,
    'short-select': 0.0002,
    resistive: 0.002,
  },
  cablePerMetre: {
    parted: 4e-5,
    'open-supply': 1e-5,
    'open-return': 1e-5,
    'open-speech': 1e-5,
    'open-select': 1e-5,
    'short-supply': 5e-6,
    'short-speech': 5e-6,
    'short-select': 5e-6,
    resistive: 5e-6,
  },
};
