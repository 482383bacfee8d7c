import { FUNCTIONS } from '../plan/functions.js';
import { NODE_KINDS, type NodeKind } from '../drawing/drawn-node.js';
import type { RecordNode } from '../sites/as-built.js';
import {
  HEAD_END_WORD,
  isHeadEndWord,
  nodeFieldsThat,
  plainWord,
  tidyText,
} from '../sites/as-built-fields.js';
import type { Raw } from '../sites/read-fields.js';
import { unguardFormula } from '../shared/formula-guard.js';
import { parseYesOrNo, splitList } from './sheet-cell.js';
import type { SheetField, SheetHeader } from './sheet-columns.js';
import type { Delimiter, SheetRecord } from './sheet-records.js';

/** One row of a sheet, its cells by field; a column that the sheet has not is left out. */
export interface SheetRow {
  line: number;
  cells: Partial<Record<SheetField, string>>;
  /** Why its cells cannot be told apart; what they seem to say is then not to be trusted. */
  misfit?: string;
}

const TEXTS = nodeFieldsThat('isText');

/** How a sheet writes its numbers and days. */
export interface CellReaders {
  metres: (cell: string) => { metres: number } | { reason: string };
  day: (cell: string) => { day: string } | { reason: string };
}

/** `delimiter`: of a text; cells of a workbook are apart already. */
export interface SheetColumnsRead {
  header: SheetHeader;
  headerCells: string[];
  delimiter: Delimiter | undefined;
}

export function toRow({ line, cells }: SheetRecord, columns: SheetColumnsRead): SheetRow {
  const row: SheetRow = { line, cells: {}, misfit: misfit(cells, columns) };
  for (const [field, { index }] of columns.header) row.cells[field] = (cells[index] ?? '').trim();
  return row;
}

/** Left-out values at the end of a row are blank ones; too many are not to be guessed at. */
function misfit(
  cells: string[],
  { header, headerCells, delimiter }: SheetColumnsRead,
): string | undefined {
  const width = headerCells.length;
  if (cells.some((cell, index) => headerCells[index]?.trim() === '' && cell.trim() !== '')) {
    return 'has a value in a column that has no name';
  }
  if (cells.length === width) return undefined;
  const at = header.get('cableMetres')?.index ?? 0;
  const [metres = '', next = ''] = cells.slice(at, at + 2);
  if (delimiter === ',' && /^\d+$/.test(metres) && /^\d{1,2}$/.test(next)) {
    return (
      `has ${cells.length} values for ${width} columns, perhaps because of a decimal comma: ` +
      `write "${metres},${next}" in quotes, or ${metres}.${next}`
    );
  }
  if (cells.slice(width).every((cell) => cell.trim() === '')) return undefined;
  return `has ${cells.length} values for ${width} columns`;
}

/**
 * The node that a row means, as input for the drawing's rules. What the sheet has no column for
 * stays as the record has it.
 */
export function toRawNode(
  { cells }: SheetRow,
  current: RecordNode | undefined,
  read: CellReaders,
): Raw {
  const raw: Raw = {
    ...current,
    node: cells.node,
    fedFrom: readFeed(cells.fedFrom ?? ''),
    ...readLength(cells, current, read),
  };
  if (cells.kind !== undefined) raw['kind'] = readKindCell(cells.kind);
  if (cells.unitInstalledOn !== undefined)
    raw['unitInstalledOn'] = readDayCell(cells.unitInstalledOn, read);
  if (cells.groups !== undefined) raw['groups'] = splitList(unguardFormula(cells.groups));
  if (cells.isOut !== undefined) raw['isOut'] = parseYesOrNo(cells.isOut) ?? cells.isOut;
  if (cells.lacks !== undefined) raw['lacks'] = splitList(cells.lacks).map(readFunction);
  for (const field of TEXTS) {
    const cell = cells[field];
    if (cell !== undefined) raw[field] = unguardFormula(tidyText(cell) ?? '');
  }
  return raw;
}

/** Without a column that says so, a length is a guess still while it is the one that was guessed. */
function readLength(
  { cableMetres, isLengthGuessed }: SheetRow['cells'],
  current: RecordNode | undefined,
  read: CellReaders,
): Raw {
  const metres =
    cableMetres === undefined ? current?.cableMetres : readMetresCell(cableMetres, read);
  const guessed =
    isLengthGuessed === undefined
      ? metres === current?.cableMetres && current?.isLengthGuessed
      : (parseYesOrNo(isLengthGuessed) ?? isLengthGuessed);
  return { cableMetres: metres, isLengthGuessed: guessed };
}

function readFunction(word: string): string {
  return FUNCTIONS.find((name) => plainWord(name) === plainWord(word)) ?? word;
}

function readDayCell(cell: string, read: CellReaders): string {
  const parsed = cell === '' ? { reason: '' } : read.day(cell);
  return 'day' in parsed ? parsed.day : cell;
}

/** Blank is left out, which is the node before. */
function readFeed(cell: string): string | null | undefined {
  if (isHeadEndWord(cell)) return null;
  return tidyText(cell) ?? undefined;
}

/** What people call the two kinds besides. */
const KIND_WORDS = new Map<string, NodeKind>([
  ...NODE_KINDS.map((kind) => [plainWord(kind), kind] as const),
  ...['tee', 'junction', 'box', 'jb'].map((word) => [word, 'junction-box'] as const),
  ...['room', 'unit', 'roomunit'].map((word) => [word, 'station'] as const),
]);

function readKindCell(cell: string): string | undefined {
  return KIND_WORDS.get(plainWord(cell)) ?? tidyText(cell) ?? undefined;
}

function readMetresCell(cell: string, read: CellReaders): number | string | null {
  const text = tidyText(cell);
  if (text === null || /^[?-]+$/.test(text)) return null;
  const parsed = read.metres(text);
  return 'metres' in parsed ? parsed.metres : text;
}

/** A node's cells in an export; the feed is always said, so that the rows' order says nothing. */
export function toCells(
  trunk: string,
  order: number,
  node: RecordNode,
  guard: (text: string) => string,
): Record<SheetField, string | number | null> {
  const cells: ReturnType<typeof toCells> = {
    ...node,
    trunk,
    order,
    fedFrom: node.fedFrom ?? HEAD_END_WORD,
    isLengthGuessed: node.isLengthGuessed ? 'yes' : null,
    groups: guard(node.groups.join(', ')),
    isOut: node.isOut ? 'yes' : null,
    lacks: node.lacks.join(', '),
  };
  for (const field of TEXTS) {
    const text = cells[field];
    if (typeof text === 'string') cells[field] = guard(text);
  }
  return cells;
}
