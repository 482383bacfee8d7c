import { parentPort, workerData } from 'node:worker_threads';
import { strFromU8, Unzip, UnzipInflate, zipSync } from 'fflate';
import readWorkbook from 'read-excel-file/node';
import { MOST_NODES } from '../sites/as-built.js';
import { toRecords, type WorkbookCell } from './workbook-cells.js';
import type { WorkbookReply } from './workbook.service.js';

/** Far beyond what a workbook of so many rows holds; a few kilobytes can unpack to gigabytes. */
const MOST_UNPACKED_BYTES = 24 * 1024 * 1024;
const MOST_ENTRIES = 1000;
const MOST_LINES = 10 * MOST_NODES;
const MOST_COLUMN_LETTERS = 2;

class TooLargeError extends Error {}

/** The parts that hold text; pictures and macros are not unpacked. Stops as soon as it is too much. */
function unpack(bytes: Uint8Array): Record<string, Uint8Array> {
  const parts: Record<string, Uint8Array> = {};
  let entries = 0;
  let unpacked = 0;
  const unzip = new Unzip((file) => {
    if (++entries > MOST_ENTRIES) throw new TooLargeError(`more than ${MOST_ENTRIES} parts`);
    if (!/\.(xml|rels)$/.test(file.name)) return;
    const chunks: Uint8Array[] = [];
    file.ondata = (error, chunk, final) => {
      if (error !== null) throw error;
      unpacked += chunk.length;
      if (unpacked > MOST_UNPACKED_BYTES)
        throw new TooLargeError(`more than ${MOST_UNPACKED_BYTES / 1024 / 1024} MB unpacked`);
      chunks.push(chunk);
      if (final) parts[file.name] = Buffer.concat(chunks);
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  // In small pieces: of each, only so much is unpacked before it is looked at.
  const PIECE = 4096;
  for (let at = 0; at < bytes.length; at += PIECE)
    unzip.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length);
  return parts;
}

/** A cell far out would be reached by as many blank ones; what slips through here ends at the thread's bounds. */
function checkReach(parts: Record<string, Uint8Array>): void {
  for (const [name, part] of Object.entries(parts)) {
    if (!name.startsWith('xl/worksheets/')) continue;
    const xml = strFromU8(part);
    for (const [, row] of xml.matchAll(/<row\b[^>]*?\sr="(\d+)"/g)) {
      if (Number(row) > MOST_LINES) throw new TooLargeError(`more than ${MOST_LINES} lines`);
    }
    for (const [, column = ''] of xml.matchAll(/<c\b[^>]*?\sr="([A-Z]+)\d+"(?:[^>]*[^/])?>/g)) {
      if (column.length > MOST_COLUMN_LETTERS)
        throw new TooLargeError(`a value in the column ${column}`);
    }
  }
}

/** What was looked at, and nothing else of the file, is what the reader gets. */
async function read(bytes: Uint8Array): Promise<WorkbookReply> {
  const parts = unpack(bytes);
  if (parts['xl/workbook.xml'] === undefined)
    return { reason: 'is no workbook (.xlsx): save it as one, or as CSV in UTF-8' };
  if (/<!DOCTYPE/i.test(strFromU8(parts['xl/workbook.xml'].subarray(0, 1000))))
    return { reason: 'is no workbook that a spreadsheet wrote' };
  checkReach(parts);
  const sheets = await readWorkbook(Buffer.from(zipSync(parts, { level: 0 })));
  return {
    sheets: sheets.map(({ sheet, data }) => ({
      sheet,
      records: toRecords(data as WorkbookCell[][]),
    })),
  };
}

// A thread of its own, which ends with the workbook: its memory and time are bounded whatever is in it.
const reply = await read(workerData as Uint8Array).catch((error: unknown): WorkbookReply => {
  const why = error instanceof TooLargeError ? `holds ${error.message}` : 'cannot be read';
  return { reason: `${why}; save its as-built sheet as CSV in UTF-8` };
});
parentPort?.postMessage(reply);
