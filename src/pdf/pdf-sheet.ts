import { readFileSync } from 'node:fs';
import PDFDocument from 'pdfkit';

/** In points. */
const MARGIN = 48;
const CELL_GAP = 6;
const ROW_GAP = 3;
const SIZES = { text: 9, small: 8, heading: 13, title: 18 };
const INK = { text: '#1b1b1b', faint: '#5c5c5c', rule: '#b8b8b8', mark: '#a32100' };

/** Fonts with all their glyphs (OFL, assets/fonts): of those that write Devanagari Latin letters are a part. */
const FONTS = {
  text: 'NotoSans-Regular',
  'text bold': 'NotoSans-Bold',
  devanagari: 'NotoSansDevanagari-Regular',
  'devanagari bold': 'NotoSansDevanagari-Bold',
};
const DEVANAGARI = /[\u0900-\u097f]/;

/** What the fonts have no sign for. */
const WITHOUT_SIGN: readonly [RegExp, string][] = [
  [/→/g, '>'],
  [/≤/g, '<='],
  [/≥/g, '>='],
];

const fontFiles = new Map<string, Buffer>();

function fontFile(name: string): Buffer {
  const known = fontFiles.get(name);
  if (known !== undefined) return known;
  const read = readFileSync(new URL(`../../assets/fonts/${name}.ttf`, import.meta.url));
  fontFiles.set(name, read);
  return read;
}

export interface PdfColumn {
  title: string;
  /** Its share of the page's width against the other columns. */
  share: number;
  align?: 'left' | 'right';
}

/** A4 sheets of headings, paragraphs and tables, one below the other; the same for the same content. */
export class PdfSheet {
  private readonly document: PDFKit.PDFDocument;
  private readonly width: number;

  /**
   * @param madeAt stands in the file as when it was made
   * @param footer of a page, in every page's foot
   */
  constructor(
    title: string,
    madeAt: Date,
    private readonly footer: (page: number, pages: number) => string,
  ) {
    this.document = new PDFDocument({
      size: 'A4',
      margins: { top: MARGIN, left: MARGIN, right: MARGIN, bottom: MARGIN + 12 },
      bufferPages: true,
      info: { Title: title, CreationDate: madeAt, Producer: 'Lastheard', Creator: 'Lastheard' },
    });
    for (const name of Object.values(FONTS)) this.document.registerFont(name, fontFile(name));
    this.width = this.document.page.width - 2 * MARGIN;
  }

  title(text: string): void {
    this.write(text, { size: SIZES.title, bold: true });
  }

  heading(text: string): void {
    this.keepTogether(60);
    this.document.moveDown(0.9);
    this.write(text, { size: SIZES.heading, bold: true });
    this.document.moveDown(0.2);
  }

  /** @param indent in points */
  paragraph(
    text: string,
    how: { bold?: boolean; faint?: boolean; mark?: boolean; indent?: number } = {},
  ): void {
    const ink = how.mark ? INK.mark : how.faint ? INK.faint : INK.text;
    this.write(text, { size: SIZES.text, ink, ...how });
  }

  list(items: readonly string[]): void {
    for (const item of items) this.paragraph(`•  ${item}`, { indent: 8 });
  }

  /** The header comes again on each page. */
  table(columns: readonly PdfColumn[], rows: readonly (readonly string[])[]): void {
    const shares = columns.reduce((sum, { share }) => sum + share, 0);
    const widths = columns.map(({ share }) => (this.width * share) / shares - CELL_GAP);
    const header = () =>
      this.row(
        columns,
        widths,
        columns.map(({ title }) => title),
        true,
      );
    this.document.moveDown(0.3);
    header();
    for (const row of rows) {
      if (this.keepTogether(this.heightOf(row, widths, false) + ROW_GAP)) header();
      this.row(columns, widths, row, false);
    }
    this.document.x = MARGIN;
    this.document.moveDown(0.4);
  }

  /** A line to write on for each label. */
  linesToSign(labels: readonly string[]): void {
    for (const label of labels) {
      this.keepTogether(44);
      const y = this.document.y + 28;
      this.rule(y, this.width * 0.6);
      this.document.y = y + 3;
      this.write(label, { size: SIZES.small, ink: INK.faint });
    }
  }

  /** Room for a drawing of that height in points; it is handed the document and where to begin. */
  draw(
    height: number,
    paint: (on: PDFKit.PDFDocument, at: { x: number; y: number; width: number }) => void,
  ): void {
    this.keepTogether(height);
    const { y } = this.document;
    paint(this.document, { x: MARGIN, y, width: this.width });
    this.document.x = MARGIN;
    this.document.y = y + height;
  }

  /** Chooses the font that can write a text, and gives the text as it can be written. */
  setFont(text: string, size: number, bold = false): string {
    const script = DEVANAGARI.test(text) ? 'devanagari' : 'text';
    this.document.font(FONTS[bold ? (`${script} bold` as const) : script]).fontSize(size);
    return WITHOUT_SIGN.reduce((told, [sign, instead]) => told.replace(sign, instead), text);
  }

  finish(): Uint8Array {
    const { start, count } = this.document.bufferedPageRange();
    for (let page = start; page < start + count; page++) {
      this.document.switchToPage(page);
      // Below the margin a text would begin another page.
      this.document.page.margins.bottom = 0;
      const text = this.setFont(this.footer(page + 1, count), SIZES.small);
      const y = this.document.page.height - MARGIN;
      this.document
        .fillColor(INK.faint)
        .text(text, MARGIN, y, { width: this.width, lineBreak: false });
    }
    this.document.end();
    return new Uint8Array(this.document.read() as Buffer);
  }

  private write(
    text: string,
    how: { size: number; bold?: boolean; ink?: string; indent?: number },
  ): void {
    const { size, bold = false, ink = INK.text, indent = 0 } = how;
    const told = this.setFont(text, size, bold);
    this.document
      .fillColor(ink)
      .text(told, MARGIN + indent, undefined, { width: this.width - indent });
  }

  private row(
    columns: readonly PdfColumn[],
    widths: readonly number[],
    cells: readonly string[],
    isHeader: boolean,
  ): void {
    const { y } = this.document;
    const height = this.heightOf(cells, widths, isHeader);
    let x = MARGIN;
    cells.forEach((cell, i) => {
      const width = widths[i] ?? 0;
      const text = this.setFont(cell, SIZES.small, isHeader);
      const align = columns[i]?.align ?? 'left';
      this.document.fillColor(isHeader ? INK.faint : INK.text).text(text, x, y, { width, align });
      x += width + CELL_GAP;
    });
    this.document.y = y + height + ROW_GAP;
    if (isHeader) this.rule(this.document.y - ROW_GAP / 2, this.width);
  }

  private heightOf(cells: readonly string[], widths: readonly number[], bold: boolean): number {
    const heights = cells.map((cell, i) => {
      const text = this.setFont(cell, SIZES.small, bold);
      const width = widths[i] ?? 0;
      // Most fit on one line, and to break lines is slow.
      if (!text.includes('\n') && this.document.widthOfString(text) < width) {
        return this.document.currentLineHeight(true);
      }
      return this.document.heightOfString(text, { width });
    });
    return Math.max(...heights);
  }

  private rule(y: number, width: number): void {
    const line = this.document.moveTo(MARGIN, y).lineTo(MARGIN + width, y);
    line.lineWidth(0.5).strokeColor(INK.rule).stroke();
  }

  /** Begins a page where so much does not fit on this one; whether it did. */
  private keepTogether(height: number): boolean {
    const { page } = this.document;
    if (this.document.y + height <= page.height - page.margins.bottom) return false;
    this.document.addPage();
    this.document.x = MARGIN;
    return true;
  }
}
