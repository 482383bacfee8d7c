/** A place on the earth, in degrees. */
export interface LatLong {
  latitude: number;
  longitude: number;
}

/** Kilometres east and north of the middle of a map. */
export interface KmPoint {
  east: number;
  north: number;
}

/** Mean radius of the earth (IUGG 1980, R1), as ways are reckoned with. */
const EARTH_KM = 6371.0088;

const RADIANS = Math.PI / 180;

/**
 * Places on a plane around `middle`, as far and in the direction that they lie from there: the azimuthal equidistant
 * projection of a sphere (Snyder, USGS Professional Paper 1395, chapter 25).
 */
export function projectAround(middle: LatLong, places: readonly LatLong[]): KmPoint[] {
  const [sin1, cos1] = [Math.sin(middle.latitude * RADIANS), Math.cos(middle.latitude * RADIANS)];
  return places.map(({ latitude, longitude }) => {
    const [sin, cos] = [Math.sin(latitude * RADIANS), Math.cos(latitude * RADIANS)];
    const turn = (longitude - middle.longitude) * RADIANS;
    const east = cos * Math.sin(turn);
    const north = cos1 * sin - sin1 * cos * Math.cos(turn);
    const sinOfWay = Math.hypot(east, north);
    const way = Math.atan2(sinOfWay, sin1 * sin + cos1 * cos * Math.cos(turn));
    const stretch = sinOfWay === 0 ? 0 : (EARTH_KM * way) / sinOfWay;
    return { east: east * stretch, north: north * stretch };
  });
}

/** What lies amid places, wherever on the globe: across the date line and at a pole too. */
export function middleOf(places: readonly LatLong[]): LatLong {
  let [x, y, z] = [0, 0, 0];
  for (const { latitude, longitude } of places) {
    const cos = Math.cos(latitude * RADIANS);
    x += cos * Math.cos(longitude * RADIANS);
    y += cos * Math.sin(longitude * RADIANS);
    z += Math.sin(latitude * RADIANS);
  }
  const level = Math.hypot(x, y);
  const isNowhere = Math.hypot(level, z) < 1e-9;
  const [first = { latitude: 0, longitude: 0 }] = places;
  return isNowhere
    ? first
    : { latitude: Math.atan2(z, level) / RADIANS, longitude: Math.atan2(y, x) / RADIANS };
}
