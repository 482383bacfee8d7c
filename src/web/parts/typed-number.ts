/** What is measured on site and is evidence, each with its unit and how well a usual meter reads it. */
export const MEASURED = {
  'supply-volts': { unit: 'V', share: 0.01, least: 0.1 },
  'loop-ohms': { unit: 'Ω', share: 0.01, least: 0.1 },
} as const;

export type Measured = keyof typeof MEASURED;

/** The keys of the pad. */
export const PAD = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0', '⌫'] as const;

/** The key of the pad that a key of a keyboard stands for; undefined: none. */
export function padKeyOf(key: string): (typeof PAD)[number] | undefined {
  const meant = key === 'Backspace' ? '⌫' : key === ',' ? '.' : key;
  return PAD.find((one) => one === meant);
}

/** What is typed once a key was pressed: one point, no more digits than a meter has. */
export function press(typed: string, key: (typeof PAD)[number]): string {
  if (key === '⌫') return typed.slice(0, -1);
  if (key === '.') return typed.includes('.') ? typed : `${typed === '' ? '0' : typed}.`;
  return typed.replace('.', '').length >= 6 ? typed : `${typed}${key}`;
}

/** There and back in two days, which the service takes at most. */
const MOST_MINUTES = 2880;

/** Whole minutes; null: nothing was typed. Undefined: what was typed is none, or more than the service takes. */
export function minutesTyped(typed: string): number | null | undefined {
  const text = typed.trim();
  if (text === '') return null;
  const minutes = /^\d{1,4}$/.test(text) ? Number(text) : MOST_MINUTES + 1;
  return minutes > MOST_MINUTES ? undefined : minutes;
}

/** More than nothing, with a comma as well; null: nothing was typed. Undefined: what was typed is none. */
export function amountTyped(typed: string): number | null | undefined {
  const text = typed.trim();
  if (text === '') return null;
  return numberTyped(text.replace(',', '.')) || undefined;
}

/** Null: no number yet. */
export function numberTyped(typed: string): number | null {
  return /^\d+(\.\d*)?$/.test(typed) ? Number(typed) : null;
}

/**
 * The standard uncertainty of what a usual hand meter shows: one in a hundred of it, and no less than one of its last digit (common
 * practice, no source). Whoever knows their meter says otherwise.
 */
export function usualUncertainty(kind: Measured, value: number): number {
  const { share, least } = MEASURED[kind];
  return Math.max(least, Number((share * Math.abs(value)).toPrecision(2)));
}
