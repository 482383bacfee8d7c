import { useLocation } from 'preact-iso';
import { useLayoutEffect } from 'preact/hooks';
import { PAGE_LANGUAGE } from '../../parts/language.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { local, longDay } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadContractVisits, ReadReview } from '../../parts/wire.js';
import { lastDay } from './contract-sentences.js';
import { KeepersOnly } from './keepers-only.js';
import { ReviewAdvice, ReviewFailures } from './review-failures.js';
import { ReviewHours, ReviewPromises, ReviewTickets, ReviewVisits } from './review-tables.js';
import { REVIEW_WORDS } from './review-words.js';
import { CONTRACT_WORDS, YEAR_REVIEW_WORDS } from '../words/words.js';

interface ReviewRead {
  review: ReadReview;
  years: ReviewedYear[];
}

type ReviewedYear = Pick<ReadContractVisits['years'][number], 'year' | 'from' | 'until'>;

/** What a client is shown of a year; which one is in the address, else the last one that is over. */
export function ContractReviewPage({ id = '' }: { id?: string }) {
  return (
    <KeepersOnly title={CONTRACT_WORDS.reviewPage}>
      <ReviewToRead id={id} />
    </KeepersOnly>
  );
}

function ReviewToRead({ id }: { id: string }) {
  const service = useService();
  const { year = '' } = useLocation().query;
  const read = useRead(`review ${id} ${year}`, () => readReview(service, id, year));
  return <Loaded read={read}>{(all) => <YearReview key={all.review.year} {...all} />}</Loaded>;
}

async function readReview(service: Service, id: string, year: string): Promise<ReviewRead> {
  const at = `/contracts/${encodeURIComponent(id)}`;
  const asked = year === '' ? '' : `?year=${encodeURIComponent(year)}`;
  const [review, visits] = await Promise.all([
    service.read<ReadReview>(`${at}/review${asked}`),
    service.read<ReadContractVisits>(`${at}/visits`),
  ]);
  return { review, years: visits.years };
}

function YearReview({ review, years }: ReviewRead) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const year = years.length > 1 ? ` · ${YEAR_REVIEW_WORDS.yearOf(review.year)}` : '';
  // Who goes from year to year by ear hears which one it is.
  const title = `${REVIEW_WORDS.title(review.title)}${year}`;
  // With the heading, which has the focus by then: both are read out.
  useLayoutEffect(() => {
    document.title = title;
  }, [title]);
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {title}
        </h1>
        <p>{review.clientName}</p>
        <ReviewLinks {...review} />
      </div>
      {years.length > 1 && <YearChoice {...review} years={years} />}
      <p>
        {CONTRACT_WORDS.period(longDay(review.from), lastDay(review.until))}{' '}
        {YEAR_REVIEW_WORDS.asOf(local(review.asOf))}
      </p>
      <p>{REVIEW_WORDS.coveredHours(review.coveredHours)}</p>
      <ReviewVisits review={review} />
      <ReviewPromises review={review} />
      <ReviewTickets review={review} />
      <ReviewHours review={review} />
      <ReviewFailures review={review} />
      <ReviewAdvice review={review} />
    </article>
  );
}

function ReviewLinks({ contractId, year }: ReadReview) {
  const files = `/api/v1/contracts/${contractId}/review`;
  const asked = `?year=${year}&language=${PAGE_LANGUAGE}`;
  return (
    <>
      <a class="no-print" href={`/desk/contracts/${contractId}`}>
        {CONTRACT_WORDS.backToOne}
      </a>
      <a class="no-print" href={`${files}/paper${asked}`} target="_blank" rel="noreferrer">
        {YEAR_REVIEW_WORDS.paper}
      </a>
      <a class="no-print" href={`${files}/sheet${asked}`} download target="_self">
        {YEAR_REVIEW_WORDS.sheet}
      </a>
    </>
  );
}

/** Every year of it; of one that is not over it is said. */
function YearChoice({ contractId, year, years, asOf }: ReadReview & { years: ReviewedYear[] }) {
  return (
    <nav class="line-up no-print" aria-label={CONTRACT_WORDS.year}>
      {years.map((one) => (
        <a
          key={one.year}
          href={`/desk/contracts/${contractId}/review?year=${one.year}`}
          class={one.year === year ? 'strong' : undefined}
          aria-current={one.year === year ? 'page' : undefined}
        >
          {yearInWords(one, asOf)}
        </a>
      ))}
    </nav>
  );
}

function yearInWords({ year, from, until }: ReviewedYear, asOf: string): string {
  const { yearOf, running, toCome } = YEAR_REVIEW_WORDS;
  const day = asOf.slice(0, 10);
  if (until <= day) return yearOf(year);
  return from <= day ? running(year) : toCome(year);
}
