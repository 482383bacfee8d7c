import type { ComponentChildren } from 'preact';
import { type SheetValue, toCsv } from './to-csv.js';

export interface SheetColumn<Row> {
  head: string;
  /** What stands in the file. */
  value: (row: Row) => SheetValue;
  /** What is shown, where that is more than the value. */
  shown?: (row: Row) => ComponentChildren;
}

interface SheetTableProps<Row> {
  label: string;
  /** What the link to the file says. */
  download: string;
  fileName: string;
  columns: readonly SheetColumn<Row>[];
  rows: readonly Row[];
  keyOf: (row: Row) => string;
}

/** A table, and the same as a file for a spreadsheet beside it. */
export function TableWithSheet<Row>({
  label,
  columns,
  rows,
  keyOf,
  ...file
}: SheetTableProps<Row>) {
  const csv = toCsv(
    columns.map(({ head }) => head),
    rows.map((row) => columns.map(({ value }) => value(row))),
  );
  return (
    <>
      <div class="scrolls" tabIndex={0} role="region" aria-label={label}>
        <table>
          <thead>
            <tr>
              {columns.map(({ head }) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={keyOf(row)}>
                {columns.map(({ head, value, shown }, index) => {
                  const given = value(row);
                  const cell = shown === undefined ? given : shown(row);
                  return index === 0 ? (
                    <th key={head} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={head} class={typeof given === 'number' ? 'number' : undefined}>
                      {cell}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="no-print">
        <a
          href={`data:text/csv;charset=utf-8,${encodeURIComponent(csv)}`}
          download={`${file.fileName}.csv`}
        >
          {file.download}
          <span class="unseen"> {label}</span>
        </a>
      </p>
    </>
  );
}
