import type { ReadDrawnRecord } from '../../parts/wire.js';

export type HeadEndField = keyof ReadDrawnRecord['headEnd'];

/** As they are typed; empty: nobody knows. */
export type HeadEndDraft = Record<HeadEndField, string>;

/** In the order in which they are asked for; the rest are numbers. */
const TEXTS = ['model', 'serial', 'place', 'installedOn'] as const;
const FIGURES = ['supplyVolts', 'supplyOhms', 'stationAmps', 'coreOhmsPerKm'] as const;

export const HEAD_END_FIELDS: readonly HeadEndField[] = [...TEXTS, ...FIGURES];

export function headEndDraft(headEnd: ReadDrawnRecord['headEnd']): HeadEndDraft {
  const typed = HEAD_END_FIELDS.map((name) => [name, String(headEnd[name] ?? '')]);
  return Object.fromEntries(typed) as HeadEndDraft;
}

/** What is to be sent, or the fields where no number was typed. A comma is a point. */
export function headEndOf(
  draft: HeadEndDraft,
): { headEnd: Record<HeadEndField, string | number | null> } | { wrong: HeadEndField[] } {
  const texts = TEXTS.map((name) => [name, draft[name].trim() || null]);
  const figures = FIGURES.map((name) => [name, figureOf(draft[name])] as const);
  const wrong = figures.filter(([, value]) => Number.isNaN(value)).map(([name]) => name);
  if (wrong.length > 0) return { wrong };
  return {
    headEnd: Object.fromEntries([...texts, ...figures]) as Record<HeadEndField, string | number>,
  };
}

function figureOf(typed: string): number | null {
  const text = typed.trim().replace(',', '.');
  if (text === '') return null;
  return /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
}
