import { PdfSheet } from '../pdf/pdf-sheet.js';
import type { Language, ReviewWords } from '../words/index.js';
import { reviewWordsIn } from '../words/review-words-in.js';
import { PEN_BOX } from '../shared/pen-path.js';
import { nameOfSite } from './reliability-figures.js';
import type { ReviewDto, ReviewTicketDto } from './review.dto.js';

/** A review as a PDF, to be read with the client and signed. */
export function reviewPaper(review: ReviewDto, language: Language): Uint8Array {
  const words = reviewWordsIn(language);
  const asOf = words.formats.instant(review.asOf.toISOString(), 'UTC');
  const sheet = new PdfSheet(words.title(review.title), review.asOf, (page, pages) =>
    words.page(page, pages, `${asOf} UTC`),
  );
  sheet.title(words.title(review.title));
  sheet.paragraph(review.clientName, { bold: true });
  sheet.paragraph(words.period(review.from, dayBefore(review.until)));
  sheet.paragraph(words.coveredHours(review.coveredHours));
  addVisits(sheet, review, words);
  addPromises(sheet, review, words);
  addAvailability(sheet, review, words);
  addReliability(sheet, review, words);
  addAdvice(sheet, review, words);
  addTickets(sheet, review, words);
  sheet.heading(words.headings.signatures);
  addDrawnSignatures(sheet, review, words);
  sheet.linesToSign(words.toSign);
  return sheet.finish();
}

function addVisits(sheet: PdfSheet, review: ReviewDto, words: ReviewWords): void {
  const { columns, headings } = words;
  const named = (siteId: string) => nameOfSite(review.sites, siteId);
  sheet.heading(headings.promisedVisits);
  sheet.table(
    [
      { title: columns.site, share: 3 },
      { title: columns.slot, share: 3 },
      { title: columns.standing, share: 2 },
      { title: columns.madeOn, share: 2 },
    ],
    review.promisedVisits.map(({ siteId, from, until, standing, visitOn }) => [
      named(siteId),
      `${from} – ${dayBefore(until)}`,
      words.standings[standing],
      visitOn ?? '–',
    ]),
  );
  sheet.heading(headings.visits);
  if (review.visits.length === 0) return sheet.paragraph(words.none);
  sheet.table(
    [
      { title: columns.day, share: 2 },
      { title: columns.site, share: 3 },
      { title: columns.technician, share: 2 },
      { title: columns.work, share: 5 },
      { title: columns.minutes, share: 1.5, align: 'right' },
      { title: columns.signed, share: 3 },
    ],
    review.visits.map((visit) => [
      visit.on,
      named(visit.siteId),
      visit.technician ?? '–',
      visit.workDone ?? '–',
      visit.minutesOnSite === null ? '–' : String(visit.minutesOnSite),
      visit.signatures
        .map(({ name, signedAt }) => words.signedBy(name, signedAt.toISOString().slice(0, 10)))
        .join('; ') || '–',
    ]),
  );
}

/** In points; what was drawn keeps its shape. */
const SIGNATURE = { width: 150, height: 50, gap: 12, caption: 14 };
const SIGNATURES_A_ROW = 3;

/** What was drawn on the visits’ phones, each above its name and day. */
function addDrawnSignatures(sheet: PdfSheet, { visits }: ReviewDto, words: ReviewWords): void {
  const drawn = visits.flatMap(({ signatures }) =>
    signatures.flatMap(({ name, signedAt, drawn: path }) => {
      const caption = words.signedBy(name, signedAt.toISOString().slice(0, 10));
      return path === null ? [] : [{ path, caption }];
    }),
  );
  const { width, height, gap, caption: captionHeight } = SIGNATURE;
  for (let first = 0; first < drawn.length; first += SIGNATURES_A_ROW) {
    const row = drawn.slice(first, first + SIGNATURES_A_ROW);
    sheet.draw(height + captionHeight + gap, (on, at) => {
      for (const [place, { path, caption }] of row.entries()) {
        const x = at.x + place * (width + gap);
        on.save()
          .translate(x, at.y)
          .scale(width / PEN_BOX.width, height / PEN_BOX.height);
        on.path(path).lineWidth(4).lineJoin('round').lineCap('round').stroke('#1b1b1b').restore();
        const text = sheet.setFont(caption, 8);
        on.fillColor('#5c5c5c').text(text, x, at.y + height, {
          width,
          height: captionHeight,
          ellipsis: true,
          lineBreak: false,
        });
      }
    });
  }
}

function addPromises(sheet: PdfSheet, review: ReviewDto, words: ReviewWords): void {
  const { columns, headings } = words;
  sheet.heading(headings.promises);
  sheet.table(
    [
      { title: columns.promise, share: 3 },
      { title: columns.met, share: 1, align: 'right' },
      { title: columns.breached, share: 1, align: 'right' },
      { title: columns.open, share: 1, align: 'right' },
      { title: columns.mean, share: 2, align: 'right' },
    ],
    review.promises.map(({ promise, met, breached, open, meanMinutesTaken }) => [
      words.promises[promise],
      String(met),
      String(breached),
      String(open),
      meanMinutesTaken === null ? '–' : words.minutes(meanMinutesTaken),
    ]),
  );
}

function addAvailability(sheet: PdfSheet, review: ReviewDto, words: ReviewWords): void {
  const { columns, headings } = words;
  sheet.heading(headings.availability);
  sheet.paragraph(words.availabilityNote, { faint: true });
  sheet.table(
    [
      { title: columns.site, share: 3 },
      { title: columns.function, share: 3 },
      { title: columns.rooms, share: 1, align: 'right' },
      { title: columns.roomHours, share: 2, align: 'right' },
      { title: columns.lost, share: 2, align: 'right' },
      { title: columns.available, share: 2, align: 'right' },
    ],
    review.availability.map((one) => [
      nameOfSite(review.sites, one.siteId),
      words.functions[one.function],
      String(one.rooms),
      words.hours(one.roomHours),
      words.hours(one.lostRoomHours),
      one.available === null ? '–' : `${words.formats.fixed(100 * one.available, 2)} %`,
    ]),
  );
}

function addReliability(sheet: PdfSheet, { reliability }: ReviewDto, words: ReviewWords): void {
  sheet.heading(words.headings.reliability);
  if (reliability === null) return sheet.paragraph(words.none);
  const { posterior, growth, trend, availability, hoursToRestore } = reliability;
  sheet.paragraph(words.record(reliability));
  sheet.paragraph(words.mtbf(reliability, reliability.confidence));
  sheet.paragraph(words.posterior(posterior, reliability.priorFrom));
  if (growth !== null) sheet.paragraph(words.growth(growth.growth, growth.mtbfHours));
  for (const name of ['laplace', 'logSum', 'reverseArrangements'] as const) {
    const test = trend[name];
    if (test !== null) sheet.paragraph(words.trend(name, test.pRarer));
  }
  if (trend.warning !== null) sheet.paragraph(words.trendWarning[trend.warning], { bold: true });
  if (availability !== null && hoursToRestore !== null) {
    sheet.paragraph(words.siteAvailable(availability, hoursToRestore));
  }
}

function addAdvice(sheet: PdfSheet, review: ReviewDto, words: ReviewWords): void {
  const named = (siteId: string) => nameOfSite(review.sites, siteId);
  sheet.heading(words.headings.advised);
  const joints = review.advised.map((joint) => {
    const cost =
      joint.renewalMinor === null ? null : words.money(joint.renewalMinor, review.currency);
    return `${named(joint.siteId)}: ${joint.words}: ${words.advised({ ...joint, cost })}.`;
  });
  sheet.list([
    ...review.unfinished.map(({ number, siteId, dueOn }) =>
      words.unfinished(number, named(siteId), dueOn),
    ),
    ...(joints.length === 0 ? [words.nothingAdvised] : joints),
  ]);
}

function addTickets(sheet: PdfSheet, review: ReviewDto, words: ReviewWords): void {
  sheet.heading(words.headings.tickets);
  if (review.tickets.length === 0) sheet.paragraph(words.none);
  for (const ticket of review.tickets) {
    sheet.paragraph(words.ticket(ticket.number, nameOfSite(review.sites, ticket.siteId)), {
      bold: true,
    });
    addTicket(sheet, ticket, words);
  }
  const { ticketsElsewhere } = review;
  if (ticketsElsewhere > 0)
    sheet.paragraph(words.ticketsElsewhere(ticketsElsewhere), { faint: true });
}

function addTicket(
  sheet: PdfSheet,
  { clock, found, mended }: ReviewTicketDto,
  words: ReviewWords,
): void {
  for (const promise of clock.promises) {
    const state = words.promiseStates[promise.state];
    const taken = words.minutes(promise.minutesTaken);
    const promised = words.minutes(promise.promisedMinutes);
    sheet.paragraph(`${words.promises[promise.promise]}: ${state}, ${taken} / ${promised}`, {
      indent: 8,
      mark: promise.state === 'breached',
    });
    for (const line of promise.lines) sheet.paragraph(line.words, { indent: 20, faint: true });
    if (promise.cause !== null) sheet.paragraph(words.breachCause(promise.cause), { indent: 20 });
  }
  for (const one of found) {
    sheet.paragraph(one.words === null ? words.nothingFound : words.found(one.words), {
      indent: 8,
    });
  }
  for (const { what, mending, parts } of mended) {
    const used = parts.map(({ name, quantity }) => `${quantity} × ${name}`).join(', ');
    const told = words.mended(what ?? '–', mending);
    sheet.paragraph(used === '' ? told : `${told} (${used})`, { indent: 8 });
  }
}

function dayBefore(day: string): string {
  return new Date(Date.parse(day) - 86_400_000).toISOString().slice(0, 10);
}
