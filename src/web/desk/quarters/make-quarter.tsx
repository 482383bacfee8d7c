import { useEffect, useState } from 'preact/hooks';
import { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { PAGE_LOCALE } from '../../parts/language.js';
import { shortDay } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import type { PlacedQuarterVisit, ReadOwedQuarter } from '../../parts/wire.js';
import type { UsedQuarter } from './use-quarter.js';
import { QUARTER_WORDS } from '../words/words.js';

interface MakeQuarterProps {
  owed: ReadOwedQuarter;
  quarter: UsedQuarter;
}

/** Asks for a plan, shows that it is being solved, and books it. */
export function MakeQuarter({ owed, quarter }: MakeQuarterProps) {
  const { plan, booked, planFailure, bookFailure, startedAt } = quarter;
  return (
    <div class="no-print">
      <p role="status">{booked !== undefined && QUARTER_WORDS.booked(booked)}</p>
      {/* What is wrong with a wish is told at its form. */}
      <FailureLine failure={planFailure?.errors.length === 0 ? planFailure : undefined} />
      <QuarterButtons owed={owed} quarter={quarter} />
      {startedAt !== undefined && <Solving quarter={quarter} startedAt={startedAt} />}
      {bookFailure !== undefined && (
        <NotBooked
          key={bookFailure.message}
          failure={bookFailure}
          placed={plan?.placed ?? []}
          onMeant={() => quarter.book(bookFailure.confirm)}
        />
      )}
    </div>
  );
}

function QuarterButtons({ owed, quarter }: MakeQuarterProps) {
  const { plan, isPlanning, isBooking } = quarter;
  const words = QUARTER_WORDS;
  const isBusy = isPlanning || isBooking;
  const placed = plan?.placed.length ?? 0;
  const make = plan === null ? words.make : words.makeAnew;
  return (
    <>
      <p class="buttons">
        {placed > 0 && !isPlanning && (
          <button type="button" class="lead" aria-disabled={isBusy} onClick={() => quarter.book()}>
            {isBooking ? words.booking : words.book(placed)}
          </button>
        )}
        {owed.visits.length > 0 && (
          <button
            type="button"
            class={placed === 0 ? 'lead' : undefined}
            aria-disabled={isBusy}
            onClick={() => quarter.make()}
          >
            {isPlanning ? words.keeping : make}
          </button>
        )}
        {plan !== null && !isBusy && (
          <button type="button" onClick={quarter.forget}>
            {words.forget}
          </button>
        )}
      </p>
      {placed > 0 && !isBusy && <p class="hint">{words.bookWhat}</p>}
    </>
  );
}

const EVERY_MS = 1000;
const seconds = new Intl.NumberFormat(PAGE_LOCALE, { style: 'unit', unit: 'second' });

/** How far it is: the first plan is drawn as soon as it is there. */
function Solving({ quarter, startedAt }: { quarter: UsedQuarter; startedAt: number }) {
  const { plan, isFirst } = quarter;
  const [now, setNow] = useState(startedAt);
  useEffect(() => {
    const ticking = setInterval(() => setNow(Date.now()), EVERY_MS);
    return () => clearInterval(ticking);
  }, []);
  const words = QUARTER_WORDS;
  const hasFirst = plan !== null && isFirst;
  return (
    <div class="notice">
      <p role="status">{hasFirst ? words.better(plan.cost, plan.bound) : words.firstOne}</p>
      <p aria-hidden="true">
        {words.atMost(seconds.format(Math.max(0, Math.floor((now - startedAt) / 1000))))}
      </p>
      {hasFirst && (
        <button type="button" class="small" onClick={quarter.stop}>
          {words.stop}
        </button>
      )}
    </div>
  );
}

interface NotBookedProps {
  failure: Failure;
  placed: readonly PlacedQuarterVisit[];
  onMeant: () => void;
}

/** Why nothing is booked, visit by visit; what is only asked about can be meant so. */
function NotBooked({ failure, placed, onMeant }: NotBookedProps) {
  const notice = useFocusOnAppearing<HTMLDivElement>();
  const words = QUARTER_WORDS;
  const lines = failure.errors.map(({ field, reason }) => {
    const visit = placed[Number(/^\/visits\/(\d+)/.exec(field)?.[1])];
    if (visit === undefined) return reason;
    return words.atVisit(visit.siteName, shortDay(visit.on), reason);
  });
  return (
    <div class="notice" role="alert" tabIndex={-1} ref={notice}>
      {lines.length === 0 && <p>{failure.message}</p>}
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {failure.confirm.length > 0 && (
        <button type="button" class="main" onClick={onMeant}>
          {words.bookAll}
        </button>
      )}
    </div>
  );
}
