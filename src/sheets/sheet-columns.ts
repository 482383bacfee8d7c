import { NODE_FIELDS, plainWord } from '../sites/as-built-fields.js';
import { nearest } from './nearest.js';

export type SheetField = 'trunk' | 'order' | keyof typeof NODE_FIELDS;

/** The columns of an as-built sheet in the order of its export, each with the field it is about. */
export const SHEET_COLUMNS = {
  trunk: 'trunk',
  order: 'order',
  ...Object.fromEntries(Object.entries(NODE_FIELDS).map(([name, { column }]) => [name, column])),
} as Readonly<Record<SheetField, string>>;

export const SHEET_FIELDS = Object.keys(SHEET_COLUMNS) as SheetField[];

const REQUIRED: SheetField[] = ['trunk', 'node'];

const fieldOfWord = new Map(SHEET_FIELDS.map((field) => [plainWord(SHEET_COLUMNS[field]), field]));

/** Where each field's column is, and what the sheet itself calls it. */
export type SheetHeader = Map<SheetField, { index: number; name: string }>;

export interface ColumnComplaint {
  column: string;
  reason: string;
}

export function countKnownColumns(cells: string[]): number {
  return cells.filter((cell) => fieldOfWord.has(plainWord(cell))).length;
}

/** Whether a row can head a sheet: no other row names the columns without which none can be read. */
export function isHeader(cells: string[]): boolean {
  const fields = new Set(cells.map((cell) => fieldOfWord.get(plainWord(cell))));
  return REQUIRED.every((field) => fields.has(field));
}

/** Matches a header's cells to the columns; blank ones (left behind by a spreadsheet) have no name. */
export function matchHeader(cells: string[]): {
  header: SheetHeader;
  complaints: ColumnComplaint[];
  /** Columns that an as-built sheet does not have. */
  unknown: ColumnComplaint[];
  /** Whether a column is missing without which no row can be read. */
  missing: boolean;
} {
  const header: SheetHeader = new Map();
  const complaints: ColumnComplaint[] = [];
  const unknown: ColumnComplaint[] = [];
  cells.forEach((cell, index) => {
    const name = cell.trim().slice(0, 100);
    if (name === '') return;
    const field = fieldOfWord.get(plainWord(name));
    if (field === undefined) unknown.push({ column: name, reason: unknownColumn(name) });
    else if (header.has(field))
      complaints.push({ column: name, reason: 'this column is there twice' });
    else header.set(field, { index, name });
  });
  const missing = REQUIRED.filter((field) => !header.has(field));
  for (const field of missing) {
    complaints.push({ column: SHEET_COLUMNS[field], reason: 'this column is missing' });
  }
  return { header, complaints, unknown, missing: missing.length > 0 };
}

function unknownColumn(name: string): string {
  const meant = nearest(plainWord(name), fieldOfWord.keys());
  const field = meant === undefined ? undefined : fieldOfWord.get(meant);
  const hint = field === undefined ? '' : `; is "${SHEET_COLUMNS[field]}" meant?`;
  return `there is no such column in an as-built sheet${hint}`;
}
