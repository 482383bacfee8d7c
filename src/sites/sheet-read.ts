import type { FieldError } from '../shared/domain-error.js';
import type { AsBuilt } from './as-built.js';
import { checkAsBuilt, MOST_NODES } from './as-built-check.js';
import { tidyText } from './as-built-fields.js';
import type { Complaint, Raw } from './read-fields.js';
import { parseMetres } from './sheet-cell.js';
import { matchHeader, SHEET_COLUMNS, type SheetField, type SheetHeader } from './sheet-columns.js';
import { sortRows } from './sheet-order.js';
import { detectDelimiter, readRecords } from './sheet-records.js';
import { type SheetRow, toRawNode, toRow } from './sheet-rows.js';
import { decodeSheet, type LineComplaint } from './sheet-text.js';

/** Far more than there are names for: an export may trail many that are blank. */
const MOST_COLUMNS = 100;

/** Blank lines between the rows are read over, within reason. */
const LIMITS = { rows: MOST_NODES, lines: 10 * MOST_NODES };

export type SheetReading = { asBuilt: AsBuilt } | { errors: FieldError[] };

/**
 * Reads an as-built sheet, a CSV file, into the record that it makes of the current one: the nodes
 * are the sheet's, the head-end and the trunks' names and ports stay. Or all of its errors.
 */
export function readSheet(bytes: Uint8Array, current: AsBuilt): SheetReading {
  const decoded = decodeSheet(bytes);
  if ('complaints' in decoded) return refuse(decoded.complaints);
  // A line that tells a spreadsheet the delimiter says nothing here; the header itself does.
  const text = decoded.text.replace(/^sep=.(?=[\r\n])/i, '');
  if (!/[^\s,;"]/.test(text)) return refuse([{ line: 1, reason: 'the sheet is empty' }]);
  const delimiter = detectDelimiter(text);
  const read = readRecords(text, delimiter, LIMITS);
  if ('complaints' in read) return refuse(read.complaints);
  const [first, ...records] = read.records;
  if (first === undefined) return refuse([{ line: 1, reason: 'the sheet is empty' }]);
  if (first.cells.length > MOST_COLUMNS) {
    const reason = `has ${first.cells.length} columns; a sheet has at most ${MOST_COLUMNS}`;
    return refuse([{ line: first.line, reason }]);
  }
  const { header, complaints, missing } = matchHeader(first.cells);
  const errors: FieldError[] = complaints.map(({ column, reason }) => ({
    field: column,
    reason,
    line: first.line,
    column,
  }));
  if (missing) return { errors };
  if (records.length === 0)
    errors.push(...toErrors([{ line: first.line, reason: 'no rows follow' }]));
  const rows = records.map((record) => toRow(record, header, first.cells, delimiter));
  return checkRows(rows, header, current, errors);
}

function checkRows(
  rows: SheetRow[],
  header: SheetHeader,
  current: AsBuilt,
  errors: FieldError[],
): SheetReading {
  const groups = new Map<string, SheetRow[]>();
  for (const row of rows) {
    const trunk = tidyText(row.cells.trunk ?? '') ?? '';
    const group = groups.get(trunk);
    if (group === undefined) groups.set(trunk, [row]);
    else group.push(row);
    if (row.misfit !== undefined)
      errors.push(...toErrors([{ line: row.line, reason: row.misfit }]));
  }
  const name = (field: SheetField) => header.get(field)?.name ?? SHEET_COLUMNS[field];
  const complain = (row: SheetRow, field: SheetField, reason: string) => {
    if (row.misfit === undefined) errors.push(toError(row, field, name(field), reason));
  };
  const sorted = [...groups].map(([trunk, group]) => {
    const { rows: inOrder, complaints } = sortRows(group);
    for (const { row, reason } of complaints) complain(row, 'order', reason);
    return { trunk, rows: inOrder };
  });
  const where = (trunk: number, node: number) => `line ${sorted[trunk]?.rows[node]?.line ?? '?'}`;
  const raw = {
    headEnd: current.headEnd,
    trunks: sorted.map(({ trunk, rows: inOrder }) => toRawTrunk(trunk, inOrder, current)),
  };
  const checked = checkAsBuilt(raw, where);
  for (const complaint of checked.complaints) {
    for (const { row, field } of placesOf(complaint, sorted))
      complain(row, field, complaint.reason);
  }
  if (errors.length === 0 && 'asBuilt' in checked) return { asBuilt: checked.asBuilt };
  return { errors: errors.sort((a, b) => (a.line ?? 0) - (b.line ?? 0)) };
}

function toRawTrunk(trunk: string, rows: SheetRow[], current: AsBuilt): Raw {
  const known = current.trunks.find((each) => each.trunk === trunk);
  const nodes = new Map(known?.nodes.map((node) => [node.node, node]));
  return {
    trunk,
    name: known?.name,
    port: known?.port,
    nodes: rows.map((row) => toRawNode(row, nodes.get(tidyText(row.cells.node ?? '') ?? ''))),
  };
}

/** The cells that a complaint is about: of one row, or what is wrong with a trunk's code, of all its rows. */
function placesOf(
  { path }: Complaint,
  sorted: { rows: SheetRow[] }[],
): { row: SheetRow; field: SheetField }[] {
  const [, trunk, member, node, field] = path;
  const rows = sorted[Number(trunk)]?.rows ?? [];
  if (member === 'trunk') return rows.map((row) => ({ row, field: 'trunk' }));
  const row = rows[Number(node ?? 0)];
  return row === undefined ? [] : [{ row, field: (field ?? 'trunk') as SheetField }];
}

function toError(row: SheetRow, field: SheetField, column: string, reason: string): FieldError {
  const value = row.cells[field] ?? '';
  const metres = field === 'cableMetres' && value !== '' ? parseMetres(value) : undefined;
  return {
    field: SHEET_COLUMNS[field],
    reason: metres !== undefined && 'reason' in metres ? metres.reason : reason,
    line: row.line,
    column,
    value: value.slice(0, 200),
  };
}

function refuse(complaints: LineComplaint[]): SheetReading {
  return { errors: toErrors(complaints) };
}

function toErrors(complaints: LineComplaint[]): FieldError[] {
  return complaints.map(({ line, reason }) => ({ field: '', reason, line }));
}
