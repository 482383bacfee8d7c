/** A cell of a sheet; null is empty. */
export type SheetValue = string | number | null;

/** What a spreadsheet would reckon instead of show begins so. */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * A sheet as CSV (RFC 4180), with the mark by which spreadsheets know UTF-8. Text that a spreadsheet would take for a formula
 * is shown as text; numbers stay numbers.
 */
export function toCsv(head: readonly string[], rows: readonly (readonly SheetValue[])[]): string {
  const lines = [head, ...rows].map((row) => row.map(cell).join(','));
  return `\uFEFF${lines.join('\r\n')}\r\n`;
}

function cell(value: SheetValue): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const text = FORMULA.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
