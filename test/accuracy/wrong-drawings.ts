import { locate, type RequestObservation } from '#app/locator/index.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { drawRows, EXPOSURE_DAYS } from './situation-table.js';
import { drawOutcome } from './tell.js';

/** Of a drawing that is wrong: whether that is what the locator thinks likeliest, and how likely. */
export interface DrawingOutcome {
  stated: number;
  isRight: boolean;
}

/**
 * Four rooms in the middle hang from a tee that the drawing does not show, and their cable is broken; or two rooms in a row
 * have each other's name, and the cable between them is broken.
 */
export function runWrongDrawing(
  kind: 'branch' | 'swapped',
  seed: number,
  cases: number,
): DrawingOutcome[] {
  const random = seededRandom(seed);
  const silent = kind === 'branch' ? [9, 10, 11, 12] : [9, 11, 12, 15, 20];
  const heard = kind === 'branch' ? [3, 7, 8, 13, 14, 20] : [3, 7, 8, 10];
  return Array.from({ length: cases }, () => {
    const site = drawRows(random);
    const told = (room: number, condition: 'good' | 'dead') =>
      (['announcement', 'lamp'] as const).map((name): RequestObservation => {
        const outcome = drawOutcome({ kind: 'office' }, condition, random);
        return { trunk: 'A', node: `A${room}`, function: name, outcome };
      });
    const observations = [
      ...silent.flatMap((room) => told(room, 'dead')),
      ...heard.flatMap((room) => told(room, 'good')),
    ];
    const trunks = site.trunks.map(({ id, nodes }) => ({
      id,
      nodes: nodes.map(({ id: node, kind: of, cableMetres }) => {
        return { id: node, kind: of, cableMetres };
      }),
    }));
    const request = { trunks, exposureDays: EXPOSURE_DAYS, observations, explanations: 0 };
    const { alternatives, asDrawn } = locate(request).drawing;
    const right = alternatives.filter((one) =>
      kind === 'swapped' ? one.kind === kind : one.kind !== 'swapped',
    );
    const stated = right.reduce((sum, { probability }) => sum + probability, 0);
    return { stated, isRight: stated > Math.max(asDrawn, 1 - asDrawn - stated) };
  });
}
