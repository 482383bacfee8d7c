import { PAGE_FORMATS } from '../../parts/language.js';
import type { ReadReview } from '../../parts/wire.js';
import { BarChart } from './bar-chart.js';
import { heldAgainst } from './chart-facts.js';
import { REVIEW_WORDS, siteNameIn } from './review-words.js';
import { CHART_WORDS } from '../words/words.js';

interface ReviewProps {
  review: ReadReview;
}

/** More bars than these are no picture any more. */
const MOST_BARS = 40;

const hours = (value: number) => PAGE_FORMATS.figure(value, 3);

/** What each ticket took, against what was promised; the table of tickets has the numbers. */
export function PromiseChart({ review }: ReviewProps) {
  const words = CHART_WORDS.promises;
  const { shown, left } = heldAgainst(review.tickets, MOST_BARS);
  if (shown.length === 0) return null;
  return (
    <>
      <BarChart
        title={words.title}
        legend={[words.taken]}
        markWords={words.promised}
        tick={(value) => CHART_WORDS.hours(hours(value))}
        bars={shown.map((one) => ({
          key: `${one.number} ${one.promise}`,
          label: words.label(one.number, REVIEW_WORDS.promises[one.promise]),
          said: words.said(hours(one.takenHours), hours(one.promisedHours), one.isOpen),
          parts: [one.takenHours],
          mark: one.promisedHours,
        }))}
      />
      {left > 0 && <p class="hint">{words.left(left)}</p>}
    </>
  );
}

/** How much of the covered time each function was there, of a hundred. */
export function AvailabilityChart({ review }: ReviewProps) {
  const words = CHART_WORDS.availability;
  const rows = review.availability.flatMap(({ available, ...one }) =>
    available === null ? [] : [{ ...one, percent: 100 * available }],
  );
  if (rows.length === 0) return null;
  const worst = [...rows].sort((a, b) => a.percent - b.percent).slice(0, MOST_BARS);
  return (
    <>
      <BarChart
        title={words.title}
        legend={[words.there]}
        tick={(value) => `${value} %`}
        bars={rows
          .filter((one) => worst.includes(one))
          .map((one) => ({
            key: `${one.siteId} ${one.function}`,
            label: `${siteNameIn(review, one.siteId)}, ${REVIEW_WORDS.functions[one.function]}`,
            said: `${PAGE_FORMATS.fixed(one.percent, 2)} %`,
            parts: [one.percent],
          }))}
      />
      {rows.length > MOST_BARS && <p class="hint">{words.left(rows.length - MOST_BARS)}</p>}
    </>
  );
}

/** Mean hours between failures of each site, with its limits. */
export function MtbfChart({ review }: ReviewProps) {
  const words = CHART_WORDS.mtbf;
  const sites = (review.reliability?.sites ?? []).slice(0, MOST_BARS);
  if (sites.length === 0) return null;
  const days = (value: number) => hours(value / 24);
  return (
    <BarChart
      title={words.title}
      legend={[]}
      limitsWords={words.limits}
      tick={(value) => CHART_WORDS.days(PAGE_FORMATS.figure(value, 3))}
      bars={sites.map(({ siteId, mtbfHours, lowHours, highHours }) => ({
        key: siteId,
        label: siteNameIn(review, siteId),
        said: words.said(
          mtbfHours === null ? '–' : days(mtbfHours),
          days(lowHours),
          highHours === null ? null : days(highHours),
        ),
        parts: mtbfHours === null ? [] : [mtbfHours / 24],
        limits: { low: lowHours / 24, high: highHours === null ? null : highHours / 24 },
      }))}
    />
  );
}
