/** What a signature is drawn in; the pen’s places are whole numbers from 0 to these. */
export const PEN_BOX = { width: 600, height: 200 } as const;

export const LONGEST_PEN_PATH = 12_000;

const STROKES = /^(?:M\d{1,3} \d{1,3}(?:L\d{1,3} \d{1,3})+)+$/;

/** Why a text is no drawing of a pen (strokes such as `M10 20L30 40`, each of two places or more), or null. */
export function refusePenPath(text: string): string | null {
  if (text.length > LONGEST_PEN_PATH) return `must be at most ${LONGEST_PEN_PATH} characters`;
  if (!STROKES.test(text)) return 'must be strokes like M10 20L30 40';
  const places = text.match(/\d+ \d+/g) ?? [];
  const isWithin = places.every((place) => {
    const [x = 0, y = 0] = place.split(' ').map(Number);
    return x <= PEN_BOX.width && y <= PEN_BOX.height;
  });
  return isWithin ? null : `must lie within ${PEN_BOX.width} by ${PEN_BOX.height}`;
}
