import type { Page } from 'playwright-core';

type Place = readonly [x: number, y: number];

/** As shares of the box that is signed in. */
const STROKES: readonly (readonly [Place, ...Place[]])[] = [
  [
    [0.1, 0.7],
    [0.2, 0.2],
    [0.3, 0.8],
  ],
  [
    [0.5, 0.4],
    [0.9, 0.6],
  ],
];

/** Signs in two strokes, or only the first; answers with what comes of it, in tenths of a box of 600 by 200. */
export async function signByHand(page: Page, count = STROKES.length): Promise<number[][][]> {
  const strokes = STROKES.slice(0, count);
  for (const [first, ...more] of strokes) {
    // Between two strokes what stands above may have come or gone, as that there is no signal.
    const box = await page.locator('svg.pen').boundingBox();
    const at = ([x, y]: Place): [number, number] => [
      box!.x + x * box!.width,
      box!.y + y * box!.height,
    ];
    await page.mouse.move(...at(first));
    await page.mouse.down();
    for (const place of more) await page.mouse.move(...at(place));
    await page.mouse.up();
  }
  // A stroke begins twice at its first place.
  return strokes.map(([first, ...more]) =>
    [first, first, ...more].map(([x, y]) => [Math.round(x * 60), Math.round(y * 20)]),
  );
}

/** Of a pen's path, each stroke's places, in tenths. */
export function strokesIn(path: string): number[][][] {
  return path
    .split('M')
    .slice(1)
    .map((stroke) =>
      stroke.split('L').map((place) => place.split(' ').map((at) => Math.round(Number(at) / 10))),
    );
}

/** A PNG that does not get small: every point has a colour of its own. */
export async function noise(page: Page, width: number, height: number): Promise<Buffer> {
  const url = await page.evaluate<string>(`(() => {
    const canvas = document.createElement('canvas');
    canvas.width = ${width}; canvas.height = ${height};
    const on = canvas.getContext('2d');
    const points = on.createImageData(${width}, ${height});
    let state = 7;
    for (let at = 0; at < points.data.length; at++) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      points.data[at] = at % 4 === 3 ? 255 : state >>> 24;
    }
    on.putImageData(points, 0, 0);
    return canvas.toDataURL('image/png');
  })()`);
  return Buffer.from(url.split(',')[1]!, 'base64');
}
