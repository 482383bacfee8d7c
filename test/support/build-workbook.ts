import { strToU8, zipSync } from 'fflate';

export type Cell = string | number | boolean | { day: string } | null;

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006/relationships';

/** A workbook as spreadsheets write them: days are numbers with the format of a date. */
export function buildWorkbook(sheets: Record<string, Cell[][]>): Buffer {
  const xml = Object.values(sheets).map((rows) => sheetXml(rows.map(rowXml).join('')));
  return zipWorkbook(Object.keys(sheets), xml);
}

/** One whose sheet's rows are given as they are to stand in it. */
export function buildRawWorkbook(rows: string): Buffer {
  return zipWorkbook(['As built'], [sheetXml(rows)]);
}

export function zip(parts: Record<string, Uint8Array>): Buffer {
  return Buffer.from(zipSync(parts));
}

function zipWorkbook(names: string[], sheets: string[]): Buffer {
  const list = names.map(
    (name, i) => `<sheet name="${name}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`,
  );
  const relations = names.map(
    (_, i) =>
      `<Relationship Id="rId${i + 1}" Type="${RELATIONS}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`,
  );
  relations.push(`<Relationship Id="rId99" Type="${RELATIONS}/styles" Target="styles.xml"/>`);
  const parts: Record<string, string> = {
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${list.join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="${PACKAGE}">${relations.join('')}</Relationships>`,
    // Style 1 is format 14, a date in the locale of whoever looks.
    'xl/styles.xml': `<styleSheet xmlns="${MAIN}"><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>`,
  };
  sheets.forEach((xml, i) => (parts[`xl/worksheets/sheet${i + 1}.xml`] = xml));
  return zip(Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, strToU8(xml)])));
}

function sheetXml(rows: string): string {
  return `<?xml version="1.0"?><worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData></worksheet>`;
}

function rowXml(cells: Cell[], index: number): string {
  return `<row r="${index + 1}">${cells.map((cell, i) => cellXml(cell, `${String.fromCharCode(65 + i)}${index + 1}`)).join('')}</row>`;
}

function cellXml(cell: Cell, at: string): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`;
  if (typeof cell === 'boolean') return `<c r="${at}" t="b"><v>${cell ? 1 : 0}</v></c>`;
  if (typeof cell === 'string') return `<c r="${at}" t="inlineStr"><is><t>${cell}</t></is></c>`;
  const serial = (Date.parse(cell.day) - Date.UTC(1899, 11, 30)) / 86_400_000;
  return `<c r="${at}" s="1"><v>${serial}</v></c>`;
}
