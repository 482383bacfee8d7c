import type { SheetRecord } from './sheet-records.js';

/** A cell of a workbook, as its program typed it. */
export type WorkbookCell = string | number | boolean | Date | null;

/** The rows of a sheet that are not blank, each with its line, and its cells as one would type them. */
export function toRecords(data: readonly WorkbookCell[][]): SheetRecord[] {
  return data
    .map((row, index) => ({ line: index + 1, cells: row.map(asTyped) }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
}

function asTyped(cell: WorkbookCell): string {
  if (cell === null) return '';
  if (cell instanceof Date)
    return Number.isNaN(cell.getTime()) ? '' : cell.toISOString().slice(0, 10);
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (typeof cell === 'string') return cell;
  // As a spreadsheet shows it; what it reckoned may be a trillionth off.
  const text = String(Number(cell.toPrecision(15)));
  // A number is no text of which one must ask whether its point parts thousands.
  return /\.\d{3}$/.test(text) ? `${text}0` : text;
}
