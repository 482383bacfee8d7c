/**
 * A spreadsheet runs a cell that begins with = + - or @ as a formula, some also after a tab or a return, so an apostrophe is
 * put before it. One that has apostrophes before such a sign already gets one more: taking one off is exact.
 */
export function guardFormula(text: string): string {
  return /^'*[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}

export function unguardFormula(cell: string): string {
  return /^'+[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell;
}
