import { layUpright } from '../drawing/lay-trunk.js';
import { placeTrunk, type Spacing } from '../drawing/place-trunk.js';
import { PdfSheet } from '../pdf/pdf-sheet.js';
import type { JobWords, Language } from '../words/index.js';
import { jobWordsIn } from '../words/job-words-in.js';
import type { JobSheetDto, JobTicketDto, JobTrunkDto } from './job-sheet.dto.js';

/** Upright, in points, close enough that thirty rooms fit on a page. */
const SPACING: Spacing = {
  columnPixels: 40,
  rowPixels: 20,
  left: 60,
  top: 14,
  right: 200,
  bottom: 8,
};

/** A longer trunk is drawn in pieces, one below the other. */
const NODES_A_PIECE = 30;

/** Of a ticket; more would be a book. */
const PIECES_DRAWN = 50;
const INK = { line: '#1b1b1b', look: '#a32100' };

/** A job sheet as a PDF, to be taken along where there is no signal. */
export function jobPaper(job: JobSheetDto, language: Language): Uint8Array {
  const words = jobWordsIn(language);
  const title = words.title(job.site.name, job.on);
  const sheet = new PdfSheet(title, job.madeAt, (page, pages) =>
    words.page(page, pages, `${job.madeAt.toISOString().slice(0, 16).replace('T', ' ')} UTC`),
  );
  sheet.title(title);
  sheet.paragraph(words.when(job.fromTime, job.untilTime, job.technician));
  sheet.paragraph(job.purpose, { bold: true });
  if (job.site.address !== null) sheet.paragraph(job.site.address);
  sheet.heading(words.headings.safety);
  if (job.site.safetyNotes !== null) sheet.paragraph(job.site.safetyNotes, { bold: true });
  sheet.list(job.cautions);
  for (const ticket of job.tickets) addTicket(sheet, ticket, words);
  if (job.furtherTickets.length > 0) sheet.paragraph(words.further(job.furtherTickets));
  sheet.heading(words.headings.lastVisits);
  if (job.lastVisits.length === 0) sheet.paragraph(words.none);
  for (const { on, technician, purpose, workDone } of job.lastVisits) {
    sheet.paragraph([on, technician ?? '–', workDone ?? purpose].join(' · '));
  }
  return sheet.finish();
}

function addTicket(sheet: PdfSheet, ticket: JobTicketDto, words: JobWords): void {
  const { headings } = words;
  sheet.heading(words.ticket(ticket.number));
  sheet.paragraph(ticket.first ?? words.noPlace, { bold: true });
  sheet.list(ticket.places);
  sheet.paragraph(headings.said, { faint: true });
  sheet.list(ticket.said);
  if (ticket.furtherSaid > 0) sheet.paragraph(words.furtherSaid(ticket.furtherSaid));
  addTrunks(sheet, ticket.trunks, words);
  if (ticket.plan.length > 0) {
    sheet.paragraph(headings.plan, { faint: true });
    for (const line of ticket.plan) {
      const depth = line.length - line.trimStart().length;
      sheet.paragraph(line.trimStart(), { indent: 4 * depth });
    }
  }
  if (ticket.checks.length > 0) {
    sheet.paragraph(headings.checks, { faint: true });
    sheet.list(ticket.checks);
  }
  sheet.paragraph(headings.parts, { faint: true });
  sheet.list(ticket.parts.map((part) => words.part(part)));
  if (ticket.secondTripChance !== null) {
    sheet.paragraph(words.secondTrip(ticket.secondTripChance), { faint: true });
  }
}

interface Piece {
  drawn: JobTrunkDto;
  /** From 0 along the trunk. */
  index: number;
  nodes: JobTrunkDto['nodes'];
  /** Lower is drawn before others: where to look first, then where something is silent or weak. */
  weight: number;
}

function addTrunks(sheet: PdfSheet, trunks: readonly JobTrunkDto[], words: JobWords): void {
  const pieces = trunks.flatMap(piecesOf);
  const byWeight = pieces.toSorted((one, other) => one.weight - other.weight);
  const first = new Set(byWeight.slice(0, PIECES_DRAWN));
  let trunk: JobTrunkDto | undefined;
  for (const piece of pieces.filter((one) => first.has(one))) {
    if (piece.drawn !== trunk) sheet.paragraph(words.trunk(piece.drawn.trunk), { faint: true });
    trunk = piece.drawn;
    addPiece(sheet, piece, words);
  }
  const left = pieces.filter((one) => !first.has(one)).flatMap(({ nodes }) => nodes);
  if (left.length > 0) sheet.paragraph(words.notDrawn(left.length));
}

function piecesOf(drawn: JobTrunkDto): Piece[] {
  const bad = new Set(
    drawn.marks.filter(({ outcome }) => outcome !== 'works').map(({ node }) => node),
  );
  return Array.from({ length: Math.ceil(drawn.nodes.length / NODES_A_PIECE) }, (_, index) => {
    const nodes = drawn.nodes.slice(index * NODES_A_PIECE, (index + 1) * NODES_A_PIECE);
    const isLooked = nodes.some(({ node }) => node === drawn.lookAt);
    const isBad = nodes.some(({ node }) => bad.has(node));
    return { drawn, index, nodes, weight: isLooked ? 0 : isBad ? 1 : 2 };
  });
}

function addPiece(sheet: PdfSheet, { drawn, index, nodes }: Piece, words: JobWords): void {
  const here = new Set(nodes.map(({ node }) => node));
  // What feeds the first ones of a further piece stands above.
  const own = nodes.map((one) => ({
    ...one,
    fedFrom: one.fedFrom !== null && here.has(one.fedFrom) ? one.fedFrom : null,
  }));
  const beginsAt = index === 0 ? words.headEnd : words.goesOn(nodes[0]?.fedFrom ?? null);
  drawPiece(sheet, { ...drawn, nodes: own }, beginsAt, words);
}

function drawPiece(sheet: PdfSheet, drawn: JobTrunkDto, beginsAt: string, words: JobWords): void {
  const placed = placeTrunk(layUpright(drawn.nodes), SPACING, true);
  const byNode = new Map(drawn.nodes.map((one) => [one.node, one]));
  const marks = new Map(drawn.marks.map(({ node, outcome }) => [node, outcome]));
  sheet.draw(placed.height, (on, at) => {
    on.save().translate(at.x, at.y);
    for (const { node, path } of placed.nodes) {
      const isLooked = node === drawn.lookAt;
      on.path(path)
        .lineWidth(isLooked ? 3 : 1)
        .strokeColor(isLooked ? INK.look : INK.line)
        .stroke();
    }
    on.rect(placed.port.x - 5, placed.port.y - 5, 10, 10).fillAndStroke(INK.line, INK.line);
    label(sheet, on, beginsAt, { x: placed.port.x + 12, y: placed.port.y, ink: INK.line });
    for (const { node, x, y } of placed.nodes) {
      const one = byNode.get(node);
      if (one === undefined) continue;
      const outcome = marks.get(node) ?? null;
      drawMark(on, one.isStation, outcome, { x, y });
      const isLooked = node === drawn.lookAt;
      const told = words.node(one.words, node, outcome, isLooked);
      label(sheet, on, told, { x: x + 12, y, ink: isLooked ? INK.look : INK.line });
      const metres = words.metres(one.cableMetres);
      const text = sheet.setFont(metres, 6);
      on.fillColor(INK.line).text(text, 0, y - 9, {
        width: x - 6,
        align: 'right',
        lineBreak: false,
      });
    }
    on.restore();
  });
}

function label(
  sheet: PdfSheet,
  on: PDFKit.PDFDocument,
  words: string,
  { x, y, ink }: { x: number; y: number; ink: string },
): void {
  const text = sheet.setFont(words, 8);
  on.fillColor(ink).text(text, x, y - 5.5, { lineBreak: false });
}

/** As on the page of a ticket: full is heard, half is weak, a square with a cross is silent, a small ring is where nothing was said. */
function drawMark(
  on: PDFKit.PDFDocument,
  isStation: boolean,
  outcome: 'works' | 'weak' | 'fails' | null,
  { x, y }: { x: number; y: number },
): void {
  on.lineWidth(1).strokeColor(INK.line);
  if (!isStation) {
    on.polygon(
      [x - 6, y],
      [x - 3, y - 5],
      [x + 3, y - 5],
      [x + 6, y],
      [x + 3, y + 5],
      [x - 3, y + 5],
    );
    on.fillAndStroke('white', INK.line);
  } else if (outcome === 'fails') {
    on.rect(x - 5.5, y - 5.5, 11, 11).fillAndStroke('white', INK.line);
    on.path(`M${x - 3} ${y - 3}L${x + 3} ${y + 3}M${x + 3} ${y - 3}L${x - 3} ${y + 3}`).stroke();
  } else if (outcome === 'works') on.circle(x, y, 5).fillAndStroke(INK.line, INK.line);
  else if (outcome === 'weak') {
    on.circle(x, y, 5).fillAndStroke('white', INK.line);
    on.path(`M${x - 5} ${y}A5 5 0 0 0 ${x + 5} ${y}Z`).fill(INK.line);
  } else on.circle(x, y, 3).fillAndStroke('white', INK.line);
}
