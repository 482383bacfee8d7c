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

const OPTIONS = {
  record_delimiter: ['\r\n', '\n', '\r'],
  relax_column_count: true,
  relax_quotes: true,
  trim: true,
  max_record_size: 0,
};

/** The records of a sheet that are not blank, or the line where its quotes go wrong. */
export function readRecords(
  text: string,
  delimiter: Delimiter,
): { records: SheetRecord[] } | { complaints: LineComplaint[] } {
  const bytes = new TextEncoder().encode(text);
  const records: SheetRecord[] = [];
  let start = 0;
  let line = 1;
  try {
    parse(text, {
      ...OPTIONS,
      delimiter,
      on_record: (cells, { bytes_records: end }) => {
        if (cells.some((cell) => cell.trim() !== '')) records.push({ line, cells });
        line += countLineBreaks(bytes, start, end);
        start = end;
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return { complaints: [{ line, reason: quoteReason(error) }] };
  }
  return { records };
}

/** The delimiter by which the first line that is not blank has the most known columns. */
export function detectDelimiter(text: string): Delimiter {
  const known = DELIMITERS.map((delimiter) => countKnownColumns(firstCells(text, delimiter)));
  return DELIMITERS[known.indexOf(Math.max(...known))] ?? ',';
}

function firstCells(text: string, delimiter: Delimiter): string[] {
  let first: string[] = [];
  try {
    parse(text, {
      ...OPTIONS,
      delimiter,
      skip_records_with_empty_values: true,
      to: 1,
      on_record: (cells) => {
        first = cells;
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
  }
  return first;
}

function quoteReason(error: CsvError): string {
  return error.code === 'CSV_QUOTE_NOT_CLOSED'
    ? 'a quote is opened here that nothing closes'
    : 'a quote ends in the middle of a value; double a quote that belongs to it';
}
