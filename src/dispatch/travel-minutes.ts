/** A place on the earth, in degrees. */
export interface Coordinates {
  latitude: number;
  longitude: number;
}

/** How a firm reckons its ways. */
export interface TravelRules {
  /** Roads are longer than the straight way by this factor. */
  detourFactor: number;
  kmPerHour: number;
  /** Parking, signing in, carrying the tools: for each way between two places. */
  minutesEachWay: number;
}

/** Common practice, no source: country roads, a van. */
export const USUAL_TRAVEL: TravelRules = { detourFactor: 1.3, kmPerHour: 50, minutesEachWay: 5 };

/** Mean radius of the earth (IUGG 1980, R1). */
const EARTH_KM = 6371.0088;

const RADIANS = Math.PI / 180;

/** Kilometres along a great circle, by the haversine formula: it loses no digits at short ways. */
export function greatCircleKm(a: Coordinates, b: Coordinates): number {
  const north = Math.sin(((b.latitude - a.latitude) * RADIANS) / 2);
  const east = Math.sin(((b.longitude - a.longitude) * RADIANS) / 2);
  const h =
    north * north + Math.cos(a.latitude * RADIANS) * Math.cos(b.latitude * RADIANS) * east * east;
  return 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(h)));
}

/** Whole minutes of a way, rounded up; 0 from a place to itself. `roadKm` where somebody has said how long the road is. */
export function travelMinutes(
  from: Coordinates,
  to: Coordinates,
  rules: TravelRules,
  roadKm?: number,
): number {
  if (from.latitude === to.latitude && from.longitude === to.longitude) return 0;
  const km = roadKm ?? greatCircleKm(from, to) * rules.detourFactor;
  return Math.ceil((km / rules.kmPerHour) * 60 + rules.minutesEachWay);
}
