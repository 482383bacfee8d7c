import type { FieldError } from '../shared/domain-error.js';
import { MOST_NODES } from '../sites/as-built.js';
import { decimalOf, parseMetres } from './sheet-cell.js';
import { isHeader, matchHeader, type SheetField, type SheetHeader } from './sheet-columns.js';
import { type Delimiter, MOST_TITLE_ROWS, type SheetRecord } from './sheet-records.js';
import { type SheetColumnsRead, type SheetRow, toRow } from './sheet-rows.js';

/** Something of a sheet that was not taken as a node, and what became of it. */
export interface SheetNote {
  line: number;
  column?: string;
  note: string;
}

/** The rows of a sheet, and how its values are parted where it is a text. */
export interface SheetRecords {
  records: SheetRecord[];
  delimiter?: Delimiter;
}

/** A sheet as it was read: rows of nodes under known columns. */
export interface SheetTable {
  header: SheetHeader;
  rows: SheetRow[];
  notes: SheetNote[];
  errors: FieldError[];
}

/** Far more than there are names for: an export may trail many that are blank. */
const MOST_COLUMNS = 100;

/** Cells that people merge downwards: a blank one is the one above. */
const MERGED: SheetField[] = ['trunk', 'block', 'floor'];

/** In a column of merged cells: nothing here, and nothing below either. */
export const NOTHING_HERE = '-';

export interface SheetOptions {
  leaveOutUnknownColumns?: boolean;
  /** Language tag by which the sheet's days and numbers are written. */
  locale?: string;
}

export function readTable(
  { records, delimiter }: SheetRecords,
  { leaveOutUnknownColumns = false, locale }: SheetOptions = {},
): SheetTable | { errors: FieldError[] } {
  const above = records.slice(0, MOST_TITLE_ROWS + 1).findIndex(({ cells }) => isHeader(cells));
  const titles = records.slice(0, Math.max(0, above));
  const [first, ...rest] = records.slice(titles.length);
  if (first === undefined) return refuse(1, 'the sheet is empty');
  if (first.cells.length > MOST_COLUMNS) {
    const reason = `has ${first.cells.length} columns; a sheet has at most ${MOST_COLUMNS}`;
    return refuse(first.line, reason);
  }
  const { header, complaints, unknown, missing } = matchHeader(first.cells);
  const wrong = leaveOutUnknownColumns ? complaints : [...unknown, ...complaints];
  const { line } = first;
  const errors = wrong.map(({ column, reason }): FieldError => ({
    field: column,
    reason,
    line,
    column,
  }));
  if (missing) return { errors };
  const notes = titles.map((title): SheetNote => ({ line: title.line, note: 'a title; left out' }));
  if (leaveOutUnknownColumns) {
    for (const { column, reason } of unknown)
      notes.push({ line, column, note: `${reason}; left out` });
  }
  const columns = { header, headerCells: first.cells, delimiter };
  const decimal = locale === undefined ? undefined : decimalOf(locale);
  const rows = readRows(rest, columns, decimal, notes);
  if (rows.length === 0) errors.push(toError(line, 'no rows follow'));
  const tooMany = rows[MOST_NODES];
  if (tooMany !== undefined)
    return refuse(tooMany.line, `the sheet has more than ${MOST_NODES} rows`);
  return { header, rows, notes, errors };
}

function readRows(
  records: SheetRecord[],
  columns: SheetColumnsRead,
  decimal: string | undefined,
  notes: SheetNote[],
): SheetRow[] {
  const rows: SheetRow[] = [];
  const above: SheetRow['cells'] = {};
  const sums = { all: 0, sinceTotal: 0 };
  const metresOf = ({ cells: { cableMetres = '' } }: SheetRow) => {
    const parsed = parseMetres(cableMetres, decimal);
    return 'metres' in parsed ? parsed.metres : 0;
  };
  let feed: string | undefined;
  for (const record of records) {
    const { line, cells } = record;
    const row = toRow(record, columns);
    const branch = branchFeed(row, cells);
    if (isRepeatedHeader(cells, columns.headerCells)) {
      notes.push({ line, note: 'the names of the columns again; left out' });
    } else if (isTotal(row, cells, metresOf(row), sums)) {
      sums.sinceTotal = 0;
      notes.push({ line, note: 'a total; left out' });
    } else if (branch !== undefined) {
      if (row.cells.trunk !== undefined && !FROM.test(row.cells.trunk)) fillDown(row, above);
      feed = branch;
      notes.push({ line, note: `the next row is fed from ${branch}` });
    } else {
      fillDown(row, above);
      row.cells.fedFrom ||= feed;
      feed = undefined;
      const metres = metresOf(row);
      sums.all += metres;
      sums.sinceTotal += metres;
      rows.push(row);
    }
  }
  return rows;
}

function fillDown({ cells }: SheetRow, above: SheetRow['cells']): void {
  for (const field of MERGED) {
    const cell = cells[field];
    if (cell === undefined) continue;
    if (cell === NOTHING_HERE && field !== 'trunk') above[field] = '';
    else if (cell !== '') above[field] = cell;
    cells[field] = above[field] ?? '';
  }
}

function isRepeatedHeader(cells: string[], headerCells: string[]): boolean {
  return headerCells.every((name, index) => name.trim() === (cells[index] ?? '').trim());
}

const FROM = /^(?:\S.*\s)?from:?\s+(\S.*?)[\s:.]*$/i;

/** What a branch is fed from where a row says that alone, in words or in its column. */
function branchFeed({ cells }: SheetRow, all: string[]): string | undefined {
  const trunk = cells.trunk ?? '';
  const said = all.filter((cell) => cell.trim() !== '' && (cell !== trunk || FROM.test(cell)));
  const [only, ...others] = said;
  if (only === undefined || others.length > 0) return undefined;
  return FROM.exec(only.trim())?.[1] ?? (only === cells.fedFrom ? only : undefined);
}

const TOTAL =
  /^(?:(?:sub|grand)?[\s-]?totals?|sums?|summe|gesamt|somme|suma|कुल|योग)(?: (?:of )?\S+)?\s*[:=]?[\s\d.,]*m?$/i;

const FIGURE = /^[\d.,\s]+(?:m|metres|stations?|rooms?|units?)?$/i;

/** A row without a code that says so; or whose only cell is what the rows above it add up to. */
function isTotal(
  row: SheetRow,
  all: string[],
  metres: number,
  { all: whole, sinceTotal }: { all: number; sinceTotal: number },
): boolean {
  const { node = '', trunk } = row.cells;
  if (node !== '' && !TOTAL.test(node)) return false;
  const said = all.filter((cell) => cell.trim() !== '');
  const words = said.filter((cell) => TOTAL.test(cell));
  if (words.length > 0) {
    return said.every((cell) => cell === trunk || words.includes(cell) || FIGURE.test(cell));
  }
  const only = said.filter((cell) => cell !== trunk);
  if (only.length !== 1 || metres === 0) return false;
  return [whole, sinceTotal].some((sum) => Math.abs(sum - metres) < 0.005);
}

function refuse(line: number, reason: string): { errors: FieldError[] } {
  return { errors: [toError(line, reason)] };
}

function toError(line: number, reason: string): FieldError {
  return { field: '', reason, line };
}
