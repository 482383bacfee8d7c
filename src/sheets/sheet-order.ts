import { parseOrder } from './sheet-cell.js';
import type { SheetRow } from './sheet-rows.js';

export interface OrderComplaint {
  row: SheetRow;
  reason: string;
}

/** A trunk's rows by their order where the sheet gives one, else as they come in the file. */
export function sortRows(rows: SheetRow[]): { rows: SheetRow[]; complaints: OrderComplaint[] } {
  const cellOf = ({ cells }: SheetRow) => cells.order ?? '';
  if (rows.every((row) => cellOf(row) === '')) return { rows, complaints: [] };
  const complaints: OrderComplaint[] = [];
  const lineOf = new Map<number, number>();
  for (const row of rows) {
    const cell = cellOf(row);
    const order = parseOrder(cell);
    const earlier = order === undefined ? undefined : lineOf.get(order);
    if (cell === '') {
      complaints.push({ row, reason: 'give the order of every row of a trunk, or of none' });
    } else if (order === undefined) {
      complaints.push({ row, reason: 'is not a whole number' });
    } else if (earlier !== undefined) {
      complaints.push({ row, reason: `line ${earlier} has the same order on this trunk` });
    } else {
      lineOf.set(order, row.line);
    }
  }
  if (complaints.length > 0) return { rows, complaints };
  return { rows: rows.toSorted((a, b) => Number(cellOf(a)) - Number(cellOf(b))), complaints };
}
