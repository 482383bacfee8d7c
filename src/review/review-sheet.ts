import { stringify } from 'csv-stringify/sync';
import { guardFormula } from '../shared/formula-guard.js';
import type { Language, SheetSection } from '../words/index.js';
import { reviewWordsIn } from '../words/review-words-in.js';
import { nameOfSite } from './reliability-figures.js';
import type { ReliabilityFiguresDto } from './reliability-figures.dto.js';
import type { ReviewDto } from './review.dto.js';

/** One number, or a day, of a review. */
interface Figure {
  section: SheetSection;
  site: string;
  of: string;
  figure: string;
  value: number | string | null;
}

/** Every number of a review, one a line; instants in RFC 3339, nothing rounded. */
export function reviewSheet(review: ReviewDto, language: Language): string {
  const { columns, sections } = reviewWordsIn(language).sheet;
  const rows = figuresOf(review).map((row) => ({
    ...row,
    section: sections[row.section],
    site: guardFormula(row.site),
    of: guardFormula(row.of),
    figure: guardFormula(row.figure),
  }));
  return stringify(rows, { columns, header: true, bom: true, record_delimiter: '\r\n' });
}

function figuresOf(review: ReviewDto): Figure[] {
  const named = (siteId: string) => nameOfSite(review.sites, siteId);
  return [
    ...review.promisedVisits.map((slot) => ({
      section: 'promisedVisits' as const,
      site: named(slot.siteId),
      of: `${slot.from} to ${slot.until}`,
      figure: slot.standing,
      value: slot.visitOn,
    })),
    ...review.visits.flatMap((visit) =>
      figures('visits', named(visit.siteId), `${visit.kind} ${visit.on}`, {
        'minutes on site': visit.minutesOnSite,
        'travel minutes': visit.travelMinutes,
        signatures: visit.signatures.length,
      }),
    ),
    ...review.tickets.flatMap((ticket) => ticketFigures(ticket, named(ticket.siteId))),
    ...review.promises.flatMap(({ promise, ...counts }) =>
      figures('promises', '', promise, counts),
    ),
    ...review.availability.flatMap(({ siteId, function: name, ...hours }) =>
      figures('availability', named(siteId), name, hours),
    ),
    ...(review.reliability === null ? [] : reliabilityRows(review.reliability, named)),
    ...review.advised.flatMap(({ siteId, words, chance, chanceRenewed, gain, ...costs }) =>
      figures('advised', named(siteId), words, {
        chance,
        chanceRenewed,
        gain,
        failureMinor: costs.failureMinor,
        renewalMinor: costs.renewalMinor,
        paysBackYears: costs.paysBackYears,
      }),
    ),
    ...review.unfinished.map(({ number, siteId, dueOn }) => {
      const of = `ticket ${number}`;
      return {
        section: 'unfinished' as const,
        site: named(siteId),
        of,
        figure: 'due on',
        value: dueOn,
      };
    }),
  ];
}

function ticketFigures({ number, clock, mended }: ReviewDto['tickets'][number], site: string) {
  const of = `ticket ${number}`;
  return [
    ...figures('tickets', site, of, { reportedAt: clock.reportedAt.toISOString() }),
    ...clock.promises.flatMap((promise) => [
      ...figures('tickets', site, `${of}, ${promise.promise}`, {
        promisedMinutes: promise.promisedMinutes,
        dueAt: promise.dueAt?.toISOString() ?? null,
        doneAt: promise.doneAt?.toISOString() ?? null,
        minutesTaken: promise.minutesTaken,
        state: promise.state,
      }),
      ...promise.lines.map(({ words, fact }) => ({
        section: 'clocks' as const,
        site,
        of: `${of}, ${promise.promise}`,
        figure: words,
        value: 'minutes' in fact ? (fact.minutes as number) : null,
      })),
    ]),
    ...mended.flatMap(({ at, minutes, parts }) => {
      const when = `${of}, mended ${at.toISOString()}`;
      const used = parts.flatMap(({ name, quantity }) =>
        figures('parts', site, when, { [name]: quantity }),
      );
      return [...figures('tickets', site, when, { minutes }), ...used];
    }),
  ];
}

function reliabilityRows(
  figures_: ReliabilityFiguresDto,
  named: (siteId: string) => string,
): Figure[] {
  const { sites, trend, growth, posterior, until, ...own } = figures_;
  const { laplace, logSum, reverseArrangements, ...told } = trend;
  return [
    ...figures('reliability', '', 'record', { ...own, until: until.toISOString() }),
    ...figures('reliability', '', 'posterior', { ...posterior }),
    ...figures('reliability', '', 'growth', { ...growth }),
    ...figures('reliability', '', 'trend', told),
    ...Object.entries({ laplace, logSum, reverseArrangements }).flatMap(([name, test]) =>
      figures('reliability', '', name, { ...test }),
    ),
    ...sites.flatMap(({ siteId, ...limits }) =>
      figures('reliability', named(siteId), 'record', { ...limits }),
    ),
  ];
}

function figures(
  section: SheetSection,
  site: string,
  of: string,
  values: Record<string, number | string | null>,
): Figure[] {
  return Object.entries(values).map(([figure, value]) => ({ section, site, of, figure, value }));
}
