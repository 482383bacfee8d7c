import { wholeTicksTo } from '../../parts/chart-scale.js';
import { PAGE_FORMATS } from '../../parts/language.js';
import { TableWithSheet } from '../../parts/sheet-table.js';
import { useWidth } from '../../parts/use-width.js';
import type { ReadReview } from '../../parts/wire.js';
import { countedFrom, expectedFailures, failuresOf } from './chart-facts.js';
import { longDay } from '../../parts/time-words.js';
import { lastDay } from './contract-sentences.js';
import { REVIEW_WORDS, siteNameIn } from './review-words.js';
import { CHART_WORDS, CONTRACT_WORDS, YEAR_REVIEW_WORDS } from '../words/words.js';

const HEIGHT = 220;
const LEFT = 32;
const FOOT = 28;

/** Failures of the year as they came, amid what the limits of the time between them let expect. */
export function FailureChart({ review }: { review: ReadReview }) {
  const words = CHART_WORDS.failures;
  const failures = failuresOf(review.tickets);
  const end = expectedFailures(review, Date.parse(review.until));
  return (
    <>
      <figure class="chart">
        <figcaption>{words.title}</figcaption>
        {end !== null && (
          <p>
            {words.expected(
              failures.length,
              PAGE_FORMATS.figure(end.mean, 2),
              PAGE_FORMATS.figure(end.least, 2),
              PAGE_FORMATS.figure(end.most, 2),
            )}
          </p>
        )}
        <Steps review={review} />
        <p class="hint">{end === null ? words.legendSteps : words.legend}</p>
      </figure>
      {failures.length > 0 && (
        <TableWithSheet
          label={words.title}
          stacks
          caption={words.title}
          download={CONTRACT_WORDS.csv}
          fileName={`${review.title}, ${words.title}`}
          rows={failures}
          keyOf={({ number }) => String(number)}
          columns={[
            { head: YEAR_REVIEW_WORDS.failures, value: ({ count }) => count },
            {
              head: REVIEW_WORDS.columns.day,
              value: ({ at }) => at.slice(0, 10),
              shown: ({ at }) => longDay(at.slice(0, 10)),
            },
            {
              head: REVIEW_WORDS.columns.site,
              value: ({ siteId }) => siteNameIn(review, siteId),
            },
            {
              head: CONTRACT_WORDS.ticket,
              value: ({ number }) => number,
              shown: ({ number }) => <a href={`/desk/tickets/${number}`}>{number}</a>,
            },
          ]}
        />
      )}
    </>
  );
}

function Steps({ review }: { review: ReadReview }) {
  const { ref, width } = useWidth();
  const failures = failuresOf(review.tickets);
  const [from, until] = [Date.parse(review.from), Date.parse(review.until)];
  const asOf = Math.min(until, Date.parse(review.asOf));
  const end = expectedFailures(review, until);
  const begin = Math.min(asOf, countedFrom(review));
  const ticks = wholeTicksTo(Math.max(failures.length, end?.mean ?? 0, 1));
  const top = ticks.at(-1) ?? 1;
  const x = (at: number) => LEFT + ((at - from) / (until - from)) * (width - LEFT - 8);
  const y = (count: number) => 8 + (1 - Math.min(count, top) / top) * (HEIGHT - FOOT - 8);
  const steps = failures.map(({ at, count }) => `H ${x(Date.parse(at))} V ${y(count)}`).join(' ');
  // The band is cut at the upper edge, where it would leave the drawing.
  const reach = (count: number) => (count <= top ? 1 : top / count);
  const line = (count: number) =>
    `${x(begin + (asOf - begin) * reach(count))} ${y(Math.min(count, top))}`;
  const corner = end !== null && end.most > top ? `L ${x(asOf)} ${y(top)}` : '';
  return (
    <div ref={ref}>
      <svg width={width} height={HEIGHT} aria-hidden="true" class="chart-steps">
        {end !== null && (
          <>
            <path
              class="chart-band"
              d={`M ${x(begin)} ${y(0)} L ${line(end.most)} ${corner} L ${line(end.least)} Z`}
            />
            <path class="chart-mean" d={`M ${x(begin)} ${y(0)} L ${line(end.mean)}`} />
          </>
        )}
        <g class="chart-axis">
          <path d={`M ${LEFT} ${y(top)} V ${y(0)} H ${width - 8}`} />
          {ticks.map((count) => (
            <text key={count} x={LEFT - 6} y={y(count) + 5} text-anchor="end">
              {count}
            </text>
          ))}
          <text x={LEFT} y={HEIGHT - 6}>
            {longDay(review.from)}
          </text>
          <text x={width - 8} y={HEIGHT - 6} text-anchor="end">
            {lastDay(review.until)}
          </text>
        </g>
        <path class="chart-step" d={`M ${x(from)} ${y(0)} ${steps} H ${x(asOf)}`} />
      </svg>
    </div>
  );
}
