import type { KmPoint } from './project-places.js';

export interface MapSize {
  width: number;
  height: number;
}

export interface MapPoint {
  x: number;
  y: number;
}

export interface FittedMap {
  points: MapPoint[];
  scale: { km: number; length: number };
}

/** Room around the outermost places, in points of the drawing. */
const MARGIN = 36;

/** Fewer kilometres are not drawn larger. */
const LEAST_SPAN_KM = 2;

/** All of it within the drawing, north up, one scale both ways, with a bar of 1, 2 or 5 times a power of ten kilometres. */
export function fitMap(places: readonly KmPoint[], { width, height }: MapSize): FittedMap {
  const [west, east] = ends(places.map((one) => one.east));
  const [south, north] = ends(places.map((one) => one.north));
  const perKm = Math.min(
    (width - 2 * MARGIN) / Math.max(LEAST_SPAN_KM, east - west),
    (height - 2 * MARGIN) / Math.max(LEAST_SPAN_KM, north - south),
  );
  const points = places.map((one) => ({
    x: width / 2 + (one.east - (west + east) / 2) * perKm,
    y: height / 2 - (one.north - (south + north) / 2) * perKm,
  }));
  const km = roundBelow(width / 4 / perKm);
  return { points, scale: { km, length: km * perKm } };
}

function ends(values: readonly number[]): [number, number] {
  return values.length === 0 ? [0, 0] : [Math.min(...values), Math.max(...values)];
}

function roundBelow(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  const times = [5, 2].find((one) => one * power <= most) ?? 1;
  return Number((times * power).toPrecision(1));
}

/** A name to be written beside its mark. */
export interface WantedLabel extends MapPoint {
  /** Of what is written, in points. */
  width: number;
  height: number;
}

/** The upper left corner of a label. */
export type PlacedLabel = MapPoint;

interface Box extends MapPoint, MapSize {}

/** How far a mark reaches from its middle, and a label stands off. */
const MARK = 9;
const OFF = 12;

/**
 * Where each label goes, those that come first first: right of its mark, left, below or above it; null where it would cover a
 * mark, another label, something else that is `kept` free, or reach out of the drawing.
 */
export function placeLabels(
  wanted: readonly WantedLabel[],
  marks: readonly MapPoint[],
  kept: readonly Box[],
  size: MapSize,
): (PlacedLabel | null)[] {
  const taken: Box[] = [
    ...kept,
    ...marks.map(({ x, y }) => ({ x: x - MARK, y: y - MARK, width: 2 * MARK, height: 2 * MARK })),
  ];
  return wanted.map(({ x, y, width, height }) => {
    const places = [
      { x: x + OFF, y: y - height / 2 },
      { x: x - OFF - width, y: y - height / 2 },
      { x: x - width / 2, y: y + OFF },
      { x: x - width / 2, y: y - OFF - height },
    ];
    const free = places.find((corner) => {
      const box = { ...corner, width, height };
      return isWithin(box, size) && !taken.some((other) => overlap(box, other));
    });
    if (free === undefined) return null;
    taken.push({ ...free, width, height });
    return free;
  });
}

function isWithin({ x, y, width, height }: Box, size: MapSize): boolean {
  return x >= 0 && y >= 0 && x + width <= size.width && y + height <= size.height;
}

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
