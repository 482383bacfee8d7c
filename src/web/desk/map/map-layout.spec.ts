import { describe, expect, it } from '@jest/globals';

import { fitMap, placeLabels } from './map-layout.js';

const SIZE = { width: 800, height: 500 };

describe('a map that is fitted', () => {
  it('has every place within it, north up, with one scale both ways', () => {
    const { points, scale } = fitMap(
      [
        { east: -40, north: 0 },
        { east: 60, north: 10 },
        { east: 0, north: -20 },
      ],
      SIZE,
    );
    for (const { x, y } of points) {
      expect(x).toBeGreaterThanOrEqual(36);
      expect(x).toBeLessThanOrEqual(764);
      expect(y).toBeGreaterThanOrEqual(36);
      expect(y).toBeLessThanOrEqual(464);
    }
    const [west, east, south] = points;
    expect(east!.y).toBeLessThan(west!.y);
    expect(south!.y).toBeGreaterThan(west!.y);
    const perKm = (east!.x - west!.x) / 100;
    expect(perKm).toBeCloseTo(7.28, 9);
    expect((west!.y - east!.y) / 10).toBeCloseTo(perKm, 9);
    expect(scale).toEqual({ km: 20, length: expect.closeTo(20 * perKm, 9) });
  });

  it('is no drawing of metres where all are at one place, or of nothing where there is none', () => {
    const here = { east: 3, north: 4 };
    const { points, scale } = fitMap([here, here], SIZE);
    expect(points).toEqual([
      { x: 400, y: 250 },
      { x: 400, y: 250 },
    ]);
    expect(scale.km).toBe(0.5);
    expect(fitMap([], SIZE).points).toEqual([]);
  });
});

describe('labels of a map', () => {
  it('stand right of their marks, else left, below, above, else nowhere', () => {
    const label = { x: 400, y: 250, width: 60, height: 20 };
    const near = (x: number, y: number) => ({ x, y });
    const around = [near(440, 250), near(360, 250), near(400, 280), near(400, 220)];
    const placed = [0, 1, 2, 3, 4].map(
      (count) => placeLabels([label], around.slice(0, count), [], SIZE)[0],
    );
    expect(placed).toEqual([
      { x: 412, y: 240 },
      { x: 328, y: 240 },
      { x: 370, y: 262 },
      { x: 370, y: 218 },
      null,
    ]);
    expect(placeLabels([{ ...label, x: 790 }], [], [], SIZE)).toEqual([{ x: 718, y: 240 }]);
    const scale = { x: 405, y: 200, width: 100, height: 100 };
    expect(placeLabels([label], [], [scale], SIZE)).toEqual([{ x: 328, y: 240 }]);
  });

  it('never overlap, of 90 places all over it, and most that come first are there', () => {
    // Spread by irrational steps: the same each time, nowhere in rows.
    const spread = (i: number, step: number) => (i * step) % 1;
    const wanted = Array.from({ length: 90 }, (_, i) => ({
      x: spread(i, Math.SQRT2) * 800,
      y: spread(i, Math.E) * 500,
      width: 40 + spread(i, Math.PI) * 90,
      height: 20,
    }));
    const placed = placeLabels(wanted, wanted, [], SIZE);
    const boxes = placed.flatMap((corner, i) => (corner ? [{ ...wanted[i]!, ...corner }] : []));
    expect(boxes.length).toBeGreaterThan(10);
    for (const [i, a] of boxes.entries()) {
      expect(a.x >= 0 && a.x + a.width <= 800 && a.y >= 0 && a.y + a.height <= 500).toBe(true);
      for (const b of boxes.slice(i + 1)) {
        const isApart = a.x + a.width <= b.x || b.x + b.width <= a.x;
        expect(isApart || a.y + a.height <= b.y || b.y + b.height <= a.y).toBe(true);
      }
    }
    expect(placeLabels(wanted.slice(1, 2), wanted.slice(1, 2), [], SIZE)[0]).not.toBeNull();
  });
});
