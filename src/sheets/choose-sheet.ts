import type { FieldError } from '../shared/domain-error.js';
import { isHeader } from './sheet-columns.js';
import { MOST_TITLE_ROWS, type SheetRecord } from './sheet-records.js';
import type { SheetRecords } from './sheet-table.js';

/** The sheet that is asked for; else the first that has the columns of an as-built sheet, else the first. */
export function chooseSheet(
  sheets: { sheet: string; records: SheetRecord[] }[],
  asked: string | undefined,
): SheetRecords | { errors: FieldError[] } {
  const named = sheets.find(({ sheet }) => sheet === asked);
  if (asked !== undefined && named === undefined) {
    const names = sheets.slice(0, 20).map(({ sheet }) => `"${sheet}"`);
    return { errors: [{ field: 'sheet', reason: `is none of its sheets: ${names.join(', ')}` }] };
  }
  const fitting = sheets.find(({ records }) =>
    records.slice(0, MOST_TITLE_ROWS + 1).some(({ cells }) => isHeader(cells)),
  );
  return { records: (named ?? fitting ?? sheets[0])?.records ?? [] };
}
