import { PAGE_FORMATS } from '../../parts/language.js';
import { TableWithSheet } from '../../parts/sheet-table.js';
import type { ReadReview } from '../../parts/wire.js';
import { clockColumns } from './clock-columns.js';
import { longDay } from '../../parts/time-words.js';
import { lastDay } from './contract-sentences.js';
import { AvailabilityChart, PromiseChart } from './review-charts.js';
import { REVIEW_WORDS, siteNameIn } from './review-words.js';
import { CONTRACT_WORDS, YEAR_REVIEW_WORDS } from '../words/words.js';

interface ReviewProps {
  review: ReadReview;
}

type ReviewedTicket = ReadReview['tickets'][number];

const { headings, columns } = REVIEW_WORDS;
const { captions } = YEAR_REVIEW_WORDS;

/** Promised, and made. */
export function ReviewVisits({ review }: ReviewProps) {
  const { promisedVisits, visits } = review;
  return (
    <>
      <section>
        <h2>{headings.promisedVisits}</h2>
        {promisedVisits.length === 0 ? (
          <p>{CONTRACT_WORDS.noVisits}</p>
        ) : (
          <TableWithSheet
            label={headings.promisedVisits}
            stacks
            caption={captions.promisedVisits}
            download={CONTRACT_WORDS.csv}
            fileName={`${review.title}, ${headings.promisedVisits}`}
            rows={promisedVisits}
            keyOf={({ siteId, from }) => `${siteId} ${from}`}
            columns={[
              { head: columns.site, value: ({ siteId }) => siteNameIn(review, siteId) },
              {
                head: columns.slot,
                value: ({ from, until }) => `${longDay(from)} – ${lastDay(until)}`,
              },
              { head: columns.standing, value: ({ standing }) => REVIEW_WORDS.standings[standing] },
              {
                head: columns.madeOn,
                value: ({ visitOn }) => visitOn,
                shown: ({ visitOn }) => (visitOn === null ? '–' : longDay(visitOn)),
              },
            ]}
          />
        )}
      </section>
      <section>
        <h2>{headings.visits}</h2>
        {visits.length === 0 ? <p>{REVIEW_WORDS.none}</p> : <VisitsMade review={review} />}
      </section>
    </>
  );
}

function signedBy(
  { signatures }: ReadReview['visits'][number],
  dayOf: (day: string) => string,
): string {
  return signatures
    .map(({ name, signedAt }) => REVIEW_WORDS.signedBy(name, dayOf(signedAt.slice(0, 10))))
    .join('; ');
}

function VisitsMade({ review }: ReviewProps) {
  return (
    <TableWithSheet
      label={headings.visits}
      stacks
      caption={captions.visits}
      download={CONTRACT_WORDS.csv}
      fileName={`${review.title}, ${headings.visits}`}
      rows={review.visits}
      keyOf={({ id }) => id}
      columns={[
        { head: columns.day, value: ({ on }) => on, shown: ({ on }) => longDay(on) },
        { head: columns.site, value: ({ siteId }) => siteNameIn(review, siteId) },
        { head: columns.technician, value: ({ technician }) => technician },
        { head: columns.work, value: ({ workDone }) => workDone },
        { head: columns.minutes, value: ({ minutesOnSite }) => minutesOnSite },
        {
          head: columns.signed,
          value: (visit) => signedBy(visit, (day) => day),
          shown: (visit) => signedBy(visit, longDay),
        },
      ]}
    />
  );
}

/** Response and restore, counted. */
export function ReviewPromises({ review }: ReviewProps) {
  return (
    <section>
      <h2>{headings.promises}</h2>
      <PromiseChart review={review} />
      <TableWithSheet
        label={headings.promises}
        stacks
        caption={captions.promises}
        download={CONTRACT_WORDS.csv}
        fileName={`${review.title}, ${headings.promises}`}
        rows={review.promises}
        keyOf={({ promise }) => promise}
        columns={[
          { head: columns.promise, value: ({ promise }) => REVIEW_WORDS.promises[promise] },
          { head: columns.met, value: ({ met }) => met },
          { head: columns.breached, value: ({ breached }) => breached },
          { head: columns.open, value: ({ open }) => open },
          {
            head: columns.mean,
            value: ({ meanMinutesTaken }) => meanMinutesTaken,
            shown: ({ meanMinutesTaken }) =>
              meanMinutesTaken === null ? '–' : CONTRACT_WORDS.minutes(meanMinutesTaken),
          },
        ]}
      />
    </section>
  );
}

/** Every ticket with its clocks, and what came of it. */
export function ReviewTickets({ review }: ReviewProps) {
  const { tickets, ticketsElsewhere } = review;
  return (
    <section>
      <h2>{headings.tickets}</h2>
      {tickets.length === 0 ? <p>{REVIEW_WORDS.none}</p> : <TicketsOfYear review={review} />}
      {ticketsElsewhere > 0 && <p>{REVIEW_WORDS.ticketsElsewhere(ticketsElsewhere)}</p>}
    </section>
  );
}

function TicketsOfYear({ review }: ReviewProps) {
  const inLines = (head: string, of: (ticket: ReviewedTicket) => string[]) => ({
    head,
    value: (ticket: ReviewedTicket) => of(ticket).join(' '),
    shown: (ticket: ReviewedTicket) => of(ticket).map((line, index) => <p key={index}>{line}</p>),
  });
  return (
    <TableWithSheet
      label={headings.tickets}
      stacks
      caption={captions.tickets}
      download={CONTRACT_WORDS.csv}
      fileName={`${review.title}, ${headings.tickets}`}
      rows={review.tickets}
      keyOf={({ number }) => String(number)}
      columns={[
        {
          head: CONTRACT_WORDS.ticket,
          value: ({ number }) => number,
          shown: ({ number }) => <a href={`/desk/tickets/${number}`}>{number}</a>,
        },
        { head: columns.site, value: ({ siteId }) => siteNameIn(review, siteId) },
        ...clockColumns<ReviewedTicket>(REVIEW_WORDS.promises),
        inLines(YEAR_REVIEW_WORDS.found, foundIn),
        inLines(YEAR_REVIEW_WORDS.mended, mendedIn),
      ]}
    />
  );
}

function foundIn({ found }: ReviewedTicket): string[] {
  return found.map(({ words }) => words ?? REVIEW_WORDS.nothingFound);
}

function mendedIn({ mended }: ReviewedTicket): string[] {
  return mended.map(({ what, mending, parts }) => {
    const used = parts.map(({ name, quantity }) => `${quantity} × ${name}`).join(', ');
    const told = REVIEW_WORDS.mended(what ?? '–', mending);
    return used === '' ? told : `${told} (${used})`;
  });
}

/** Room-hours of each function, and how many were lost. */
export function ReviewHours({ review }: ReviewProps) {
  const hours = (value: number) => REVIEW_WORDS.hours(value);
  return (
    <section>
      <h2>{headings.availability}</h2>
      <p class="hint">{REVIEW_WORDS.availabilityNote}</p>
      {review.availability.length === 0 ? (
        <p>{REVIEW_WORDS.none}</p>
      ) : (
        <>
          <AvailabilityChart review={review} />
          <TableWithSheet
            label={headings.availability}
            stacks
            caption={captions.availability}
            download={CONTRACT_WORDS.csv}
            fileName={`${review.title}, ${headings.availability}`}
            rows={review.availability}
            keyOf={(one) => `${one.siteId} ${one.function}`}
            columns={[
              { head: columns.site, value: ({ siteId }) => siteNameIn(review, siteId) },
              { head: columns.function, value: (one) => REVIEW_WORDS.functions[one.function] },
              { head: columns.rooms, value: ({ rooms }) => rooms },
              {
                head: columns.roomHours,
                value: ({ roomHours }) => roomHours,
                shown: ({ roomHours }) => hours(roomHours),
              },
              {
                head: columns.lost,
                value: ({ lostRoomHours }) => lostRoomHours,
                shown: ({ lostRoomHours }) => hours(lostRoomHours),
              },
              {
                head: columns.available,
                value: ({ available }) => available,
                shown: ({ available }) =>
                  available === null ? '–' : `${PAGE_FORMATS.fixed(100 * available, 2)} %`,
              },
            ]}
          />
        </>
      )}
    </section>
  );
}
