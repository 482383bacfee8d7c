import type { ComponentChildren } from 'preact';
import { type SheetValue, toCsv } from './to-csv.js';

export interface SheetColumn<Row> {
  head: string;
  /** What stands in the file. */
  value: (row: Row) => SheetValue;
  /** What is shown, where that is more than the value; null: it stands in the file alone. */
  shown?: ((row: Row) => ComponentChildren) | null;
}

interface SheetLinkProps<Row> {
  label: string;
  /** What the link to the file says. */
  download: string;
  fileName: string;
  columns: readonly Pick<SheetColumn<Row>, 'head' | 'value'>[];
  rows: readonly Row[];
}

interface SheetTableProps<Row> extends SheetLinkProps<Row> {
  /** What stands above it, where its heading does not say enough. */
  caption?: string;
  /** On a phone a row is a block of lines, each with its head. */
  stacks?: boolean;
  columns: readonly SheetColumn<Row>[];
  keyOf: (row: Row) => string;
}

/** A table, and the same as a file for a spreadsheet beside it. */
export function TableWithSheet<Row>({
  label,
  caption,
  stacks = false,
  columns,
  rows,
  keyOf,
  ...file
}: SheetTableProps<Row>) {
  const onPage = columns.filter(({ shown }) => shown !== null);
  return (
    <>
      <div class="scrolls" tabIndex={0} role="region" aria-label={label}>
        <table class={stacks ? 'stacks' : undefined}>
          {caption !== undefined && <caption>{caption}</caption>}
          <thead>
            <tr>
              {onPage.map(({ head }) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <SheetRow key={keyOf(row)} row={row} columns={onPage} />
            ))}
          </tbody>
        </table>
      </div>
      <SheetLink label={label} columns={columns} rows={rows} {...file} />
    </>
  );
}

/** Rows as a file for a spreadsheet. */
export function SheetLink<Row>({ label, columns, rows, download, fileName }: SheetLinkProps<Row>) {
  const csv = toCsv(
    columns.map(({ head }) => head),
    rows.map((row) => columns.map(({ value }) => value(row))),
  );
  return (
    <p class="no-print">
      <a
        href={`data:text/csv;charset=utf-8,${encodeURIComponent(csv)}`}
        download={`${fileName}.csv`}
      >
        {download}
        <span class="unseen"> {label}</span>
      </a>
    </p>
  );
}

function SheetRow<Row>({ row, columns }: Pick<SheetTableProps<Row>, 'columns'> & { row: Row }) {
  return (
    <tr>
      {columns.map(({ head, value, shown }, index) => {
        const given = value(row);
        const cell = shown ? shown(row) : given;
        return index === 0 ? (
          <th key={head} scope="row">
            {cell}
          </th>
        ) : (
          <td key={head} data-head={head} class={typeof given === 'number' ? 'number' : undefined}>
            {cell}
          </td>
        );
      })}
    </tr>
  );
}
