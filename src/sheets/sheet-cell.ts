/**
 * Metres as people type them: "9.5", "9,5", "12 m". A text that cannot be told for certain comes
 * back with the reason: "1.200" could be either of two lengths, unless `decimal` says which sign a sheet's
 * numbers have before their fractions.
 */
export function parseMetres(
  cell: string,
  decimal?: string,
): { metres: number } | { reason: string } {
  const match = /^([+-]?\d+)(?:([.,])(\d+))?(?:\s*m)?$/i.exec(cell);
  if (match === null) return { reason: 'is not a length in metres' };
  const [, whole = '', sign, fraction] = match;
  if (fraction === undefined) return { metres: Number(whole) };
  if (fraction.length !== 3) return { metres: Number(`${whole}.${fraction}`) };
  if (decimal === undefined) {
    return { reason: 'could be thousands or thousandths; write 1200 or 1.2' };
  }
  return { metres: Number(sign === decimal ? `${whole}.${fraction}` : whole + fraction) };
}

/** The sign before the fraction of a number, as a language writes it. */
export function decimalOf(locale: string): string | undefined {
  const parts = new Intl.NumberFormat(locale).formatToParts(1.5);
  return parts.find(({ type }) => type === 'decimal')?.value;
}

/** The place in the trunk's order, a whole number from 0. */
export function parseOrder(cell: string): number | undefined {
  return /^\d{1,9}$/.test(cell) ? Number(cell) : undefined;
}

const YES = new Set(['yes', 'y', 'true', '1', 'x']);
const NO = new Set(['', 'no', 'n', 'false', '0']);

/** Undefined: neither. */
export function parseYesOrNo(cell: string): boolean | undefined {
  const word = cell.trim().toLowerCase();
  if (YES.has(word)) return true;
  return NO.has(word) ? false : undefined;
}

/** Names of one cell, parted by commas or semicolons. */
export function splitList(cell: string): string[] {
  return cell
    .split(/[,;]/)
    .map((each) => each.trim())
    .filter((each) => each !== '');
}
