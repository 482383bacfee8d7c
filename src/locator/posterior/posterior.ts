import type { SweptSite } from '../sweep/sweep-site.js';
import { stationPosterior, type StationPosterior } from './conditions.js';
import type { Quietness } from './quietness.js';

/** Posterior masses of one trunk's port and spans, as the sweep down leaves them. */
export interface TrunkPosterior {
  readonly portOk: number;
  readonly portNoOutput: number;
  readonly spans: Float64Array;
}

/** What one site's sweeps say of every component and of every function. */
export interface Posterior {
  /** Of `ok` and then of each mode of the head-end. */
  readonly headEnd: Float64Array;
  readonly trunks: readonly TrunkPosterior[];
  /** By trunk, by node; null where no station is at work. */
  readonly stations: readonly (readonly (StationPosterior | null)[])[];
}

export function posteriorOf({ site, sweeps, masses, live, trunks }: SweptSite): Posterior {
  const { ofMode, share } = site.headEnd;
  return {
    headEnd: share.map((own, mode) => own * (masses.groups[ofMode[mode] ?? 0] ?? 0)),
    trunks,
    stations: site.trunks.map((trunk, t) =>
      trunk.station.map((station, n) => {
        const found = trunks[t];
        const slot = sweeps[t]?.tables.nodes[n];
        if (!station || !found || !slot) return null;
        const [feedClasses = new Uint8Array()] = trunk.space.classes;
        return stationPosterior({
          site,
          station,
          likelihood: trunk.likelihood[n]?.table ?? null,
          masses: found,
          feedClasses,
          slot,
          live: live(slot.contexts),
          zone: trunk.zone[n] ?? 0,
        });
      }),
    ),
  };
}

/** The posterior with quiet worlds weighing less: `all` is that of all worlds alike, `quiet` that of the quiet ones. */
export function mixPosteriors(
  { mix, mixAll }: Quietness,
  all: Posterior,
  quiet: Posterior,
): Posterior {
  return {
    headEnd: mixAll(all.headEnd, quiet.headEnd),
    trunks: all.trunks.map((own, t) => {
      const other = quiet.trunks[t];
      if (!other) return own;
      return {
        portOk: mix(own.portOk, other.portOk),
        portNoOutput: mix(own.portNoOutput, other.portNoOutput),
        spans: mixAll(own.spans, other.spans),
      };
    }),
    stations: all.stations.map((nodes, t) =>
      nodes.map((own, n) => {
        const other = quiet.stations[t]?.[n];
        if (!own || !other) return own;
        return {
          classes: mixAll(own.classes, other.classes),
          short: mix(own.short, other.short),
          conditions: mixAll(own.conditions, other.conditions),
        };
      }),
    ),
  };
}
