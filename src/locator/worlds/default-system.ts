import { systemOf } from '../sweep/system.js';

/**
 * Worlds, and the walks that are planned over them, are of the default plan: probableWorlds takes no other, and a request
 * that names one is refused there.
 */
export const {
  plan: PLAN,
  feedClasses: FEEDS,
  stationClasses: STATIONS,
  states: STATES,
  effects: EFFECTS,
  stateOf,
} = systemOf();

export const FEED_CLASSES = FEEDS.count;
export const STATION_CLASS_COUNT = STATIONS.count;
