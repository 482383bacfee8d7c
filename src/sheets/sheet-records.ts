import { CsvError, parse } from 'csv-parse/sync';
import { countKnownColumns } from './sheet-columns.js';
import { countLineBreaks, type LineComplaint } from './sheet-text.js';

/** One record of a sheet and the line of the file where it starts. */
export interface SheetRecord {
  line: number;
  cells: string[];
}

export type Delimiter = ',' | ';' | '\t';

const DELIMITERS: Delimiter[] = [',', ';', '\t'];

/** Above the header people write the site, the date, who drew it. */
export const MOST_TITLE_ROWS = 20;

/** In characters; more of the file is not needed to tell its delimiter. */
const LONGEST_HEADER = 10_000;

const OPTIONS = {
  record_delimiter: ['\r\n', '\n', '\r'],
  relax_column_count: true,
  relax_quotes: true,
  trim: true,
  max_record_size: 0,
};

/** What stops the reading of a file that is no sheet of a site, before it takes long. */
export interface SheetLimits {
  /** After the header. */
  rows: number;
  lines: number;
}

/** The records of a sheet that are not blank, or the line where it cannot be read on. */
export function readRecords(
  sheet: string,
  delimiter: Delimiter,
  limits: SheetLimits,
): { records: SheetRecord[] } | { complaints: LineComplaint[] } {
  const { text, firstLine } = withoutBlankEnds(sheet);
  const bytes = new TextEncoder().encode(text);
  const records: SheetRecord[] = [];
  let start = 0;
  let line = firstLine;
  try {
    parse(text, {
      ...OPTIONS,
      delimiter,
      on_record: (cells, { bytes_records: end }) => {
        if (cells.some((cell) => cell.trim() !== '')) records.push({ line, cells });
        if (records.length > limits.rows + 1) throw new TooLongError(`${limits.rows} rows`);
        line += countLineBreaks(bytes, start, end);
        start = end;
        if (line > limits.lines) throw new TooLongError(`${limits.lines} lines`);
        return null;
      },
    });
  } catch (error) {
    if (error instanceof TooLongError) return { complaints: [{ line, reason: error.message }] };
    if (!(error instanceof CsvError)) throw error;
    return { complaints: [{ line, reason: quoteReason(error) }] };
  }
  return { records };
}

class TooLongError extends Error {
  constructor(limit: string) {
    super(`the sheet has more than ${limit}`);
  }
}

/** A spreadsheet may write out thousands of rows that are blank; none of them needs parsing. */
function withoutBlankEnds(sheet: string): { text: string; firstLine: number } {
  const start = startOfFirstRow(sheet);
  let last = sheet.length - 1;
  while (last >= start && /[\s,;]/.test(sheet[last] ?? '')) last--;
  const end = sheet.slice(last + 1).search(/[\r\n]/);
  const before = new TextEncoder().encode(sheet.slice(0, start));
  return {
    text: sheet.slice(start, end < 0 ? undefined : last + 1 + end),
    firstLine: 1 + countLineBreaks(before, 0, before.length),
  };
}

function startOfFirstRow(sheet: string): number {
  const first = Math.max(0, sheet.search(/[^\s,;]/));
  return Math.max(sheet.lastIndexOf('\n', first), sheet.lastIndexOf('\r', first)) + 1;
}

/** The delimiter by which one of the first lines has the most known columns: titles may stand above the header. */
export function detectDelimiter(sheet: string): Delimiter {
  const start = startOfFirstRow(sheet);
  const text = sheet.slice(start, start + LONGEST_HEADER);
  const known = DELIMITERS.map((delimiter) => mostKnownColumns(text, delimiter));
  return DELIMITERS[known.indexOf(Math.max(...known))] ?? ',';
}

function mostKnownColumns(text: string, delimiter: Delimiter): number {
  let most = 0;
  try {
    parse(text, {
      ...OPTIONS,
      delimiter,
      to: MOST_TITLE_ROWS + 1,
      on_record: (cells) => {
        most = Math.max(most, countKnownColumns(cells));
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
  }
  return most;
}

function quoteReason(error: CsvError): string {
  return error.code === 'CSV_QUOTE_NOT_CLOSED'
    ? 'a quote is opened here that nothing closes'
    : 'a quote ends in the middle of a value; double a quote that belongs to it';
}
