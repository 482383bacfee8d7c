import { LONGEST_PEN_PATH, PEN_BOX } from '#app/shared/pen-path.js';

/** What a pen drew, as the service takes it: `M10 20L30 40` for each stroke; empty: nothing. */
export type PenPath = string;

/** Nearer places tell nothing more. */
const LEAST_STEP = 3;

/** As text: `600 200`. */
const LONGEST_PLACE = 7;

/** A stroke begins; a touch alone is a dot. Once the drawing is as long as one may be, nothing is added. */
export function beginStroke(drawn: PenPath, x: number, y: number): PenPath {
  const at = placed(x, y);
  return ifItFits(drawn, `M${at}L${at}`);
}

/** The pen moves on, touching. */
export function moveOn(drawn: PenPath, x: number, y: number): PenPath {
  const [lastX = 0, lastY = 0] = (/(\d+) (\d+)$/.exec(drawn.slice(-LONGEST_PLACE)) ?? [])
    .slice(1)
    .map(Number);
  const at = placed(x, y);
  const [ownX = 0, ownY = 0] = at.split(' ').map(Number);
  if (Math.hypot(ownX - lastX, ownY - lastY) < LEAST_STEP) return drawn;
  return ifItFits(drawn, `L${at}`);
}

function ifItFits(drawn: PenPath, more: string): PenPath {
  return drawn.length + more.length > LONGEST_PEN_PATH ? drawn : drawn + more;
}

function placed(x: number, y: number): string {
  const within = (at: number, most: number) => Math.min(most, Math.max(0, Math.round(at)));
  return `${within(x, PEN_BOX.width)} ${within(y, PEN_BOX.height)}`;
}
