import type { FieldError } from '../shared/domain-error.js';
import { type AsBuilt, MOST_NODES } from '../sites/as-built.js';
import { checkAsBuilt } from '../sites/as-built-check.js';
import { tidyText } from '../sites/as-built-fields.js';
import type { Complaint, Raw } from '../sites/read-fields.js';
import { joinBranches, type SheetLine } from './sheet-branches.js';
import { decimalOf, parseMetres } from './sheet-cell.js';
import { SHEET_COLUMNS, type SheetField, type SheetHeader } from './sheet-columns.js';
import { dayReader } from './sheet-day.js';
import { sortRows } from './sheet-order.js';
import { detectDelimiter, readRecords } from './sheet-records.js';
import { type CellReaders, type SheetRow, toRawNode } from './sheet-rows.js';
import type { SheetNote, SheetRecords, SheetTable } from './sheet-table.js';
import { decodeSheet, type LineComplaint } from './sheet-text.js';

/** Blank lines, titles and totals between the rows are read over, within reason. */
const LIMITS = { rows: 2 * MOST_NODES, lines: 10 * MOST_NODES };

export type SheetReading = { asBuilt: AsBuilt; notes: SheetNote[] } | { errors: FieldError[] };

/** The records of a CSV file, or why it is none. */
export function readCsv(bytes: Uint8Array): SheetRecords | { errors: FieldError[] } {
  const decoded = decodeSheet(bytes);
  if ('complaints' in decoded) return refuse(decoded.complaints);
  // A line that tells a spreadsheet the delimiter says nothing here; the header itself does.
  const text = decoded.text.replace(/^sep=.(?=[\r\n])/i, '');
  if (!/[^\s,;"]/.test(text)) return refuse([{ line: 1, reason: 'the sheet is empty' }]);
  const delimiter = detectDelimiter(text);
  const read = readRecords(text, delimiter, LIMITS);
  return 'complaints' in read ? refuse(read.complaints) : { records: read.records, delimiter };
}

/**
 * The record that a sheet makes of the current one: the nodes are the sheet's, the head-end and the trunks' names and
 * ports stay. Or all of its errors. `locale`: the language tag by which its days and numbers are written.
 */
export function drawSheet(
  { header, rows, notes, errors: before }: SheetTable,
  current: AsBuilt,
  locale?: string,
): SheetReading {
  const errors = [...before];
  const lines = new Map<string, SheetRow[]>();
  for (const row of rows) {
    const trunk = tidyText(row.cells.trunk ?? '') ?? '';
    const line = lines.get(trunk);
    if (line === undefined) lines.set(trunk, [row]);
    else line.push(row);
    if (row.misfit !== undefined)
      errors.push(...toErrors([{ line: row.line, reason: row.misfit }]));
  }
  const read = cellReaders(rows, locale);
  const complain = (row: SheetRow, field: SheetField, reason: string) => {
    if (row.misfit === undefined) errors.push(toError(row, field, header, read, reason));
  };
  const inOrder = [...lines].map(([trunk, line]) => {
    const sorted = sortRows(line);
    for (const { row, reason } of sorted.complaints) complain(row, 'order', reason);
    return { trunk, rows: sorted.rows };
  });
  const isTrunk = (code: string) => current.trunks.some(({ trunk }) => trunk === code);
  const joined = joinBranches(inOrder, isTrunk);
  const where = (trunk: number, node: number) =>
    `line ${joined.lines[trunk]?.rows[node]?.line ?? '?'}`;
  const raw = {
    headEnd: current.headEnd,
    trunks: joined.lines.map((line) => toRawTrunk(line, current, read)),
  };
  const checked = checkAsBuilt(raw, where);
  for (const complaint of checked.complaints) {
    for (const { row, field } of placesOf(complaint, joined.lines))
      complain(row, field, complaint.reason);
  }
  if (errors.length === 0 && 'asBuilt' in checked) {
    return { asBuilt: checked.asBuilt, notes: [...notes, ...joined.notes] };
  }
  return { errors: errors.sort((a, b) => (a.line ?? 0) - (b.line ?? 0)) };
}

function cellReaders(rows: SheetRow[], locale: string | undefined): CellReaders {
  const decimal = locale === undefined ? undefined : decimalOf(locale);
  return {
    metres: (cell) => parseMetres(cell, decimal),
    day: dayReader(
      rows.map(({ cells }) => cells.unitInstalledOn ?? ''),
      locale,
    ),
  };
}

function toRawTrunk({ trunk, rows }: SheetLine, current: AsBuilt, read: CellReaders): Raw {
  const known = current.trunks.find((each) => each.trunk === trunk);
  const nodes = new Map(known?.nodes.map((node) => [node.node, node]));
  return {
    trunk,
    name: known?.name,
    port: known?.port,
    nodes: rows.map((row) => toRawNode(row, nodes.get(tidyText(row.cells.node ?? '') ?? ''), read)),
  };
}

/** The cells that a complaint is about: of one row, or what is wrong with a trunk's code, of all its rows. */
function placesOf({ path }: Complaint, lines: SheetLine[]): { row: SheetRow; field: SheetField }[] {
  const [, trunk, member, node, field] = path;
  const rows = lines[Number(trunk)]?.rows ?? [];
  if (member === 'trunk') return rows.map((row) => ({ row, field: 'trunk' }));
  const row = rows[Number(node ?? 0)];
  return row === undefined ? [] : [{ row, field: (field ?? 'trunk') as SheetField }];
}

function toError(
  row: SheetRow,
  field: SheetField,
  header: SheetHeader,
  read: CellReaders,
  reason: string,
): FieldError {
  const value = row.cells[field] ?? '';
  const unread =
    field === 'cableMetres' ? read.metres(value) : field === 'unitInstalledOn' && read.day(value);
  return {
    field: SHEET_COLUMNS[field],
    reason: value !== '' && unread && 'reason' in unread ? unread.reason : reason,
    line: row.line,
    column: header.get(field)?.name ?? SHEET_COLUMNS[field],
    value: value.slice(0, 200),
  };
}

function refuse(complaints: LineComplaint[]): { errors: FieldError[] } {
  return { errors: toErrors(complaints) };
}

function toErrors(complaints: LineComplaint[]): FieldError[] {
  return complaints.map(({ line, reason }) => ({ field: '', reason, line }));
}
