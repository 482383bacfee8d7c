import { stringify } from 'csv-stringify/sync';
import type { AsBuilt } from '../sites/as-built.js';
import { guardFormula } from '../shared/formula-guard.js';
import { SHEET_COLUMNS, SHEET_FIELDS } from './sheet-columns.js';
import { toCells } from './sheet-rows.js';
import { NOTHING_HERE } from './sheet-table.js';

/**
 * The record's nodes as a sheet that reads back as the same nodes: commas, CRLF, and a byte order
 * mark without which spreadsheets take it for another encoding.
 */
export function writeSheet({ trunks }: AsBuilt): string {
  const rows = trunks.flatMap(({ trunk, nodes }) =>
    nodes.map((node, index) => toCells(trunk, index + 1, node, guardFormula)),
  );
  for (const field of ['block', 'floor'] as const) {
    rows.forEach((row, index) => {
      // A blank cell below a value would be read as that value.
      const above = rows[index - 1]?.[field] ?? NOTHING_HERE;
      if (row[field] === null && above !== NOTHING_HERE) row[field] = NOTHING_HERE;
    });
  }
  const columns = SHEET_FIELDS.map((key) => ({ key, header: SHEET_COLUMNS[key] }));
  return stringify(rows, { columns, header: true, bom: true, record_delimiter: '\r\n' });
}
