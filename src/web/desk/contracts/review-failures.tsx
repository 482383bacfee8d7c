import { PAGE_FORMATS } from '../../parts/language.js';
import { TableWithSheet } from '../../parts/sheet-table.js';
import type { ReadReview } from '../../parts/wire.js';
import { FailureChart } from './failure-chart.js';
import { MtbfChart } from './review-charts.js';
import { major, money } from './money.js';
import { REVIEW_WORDS, siteNameIn } from './review-words.js';
import { CONTRACT_WORDS, YEAR_REVIEW_WORDS } from '../words/words.js';

interface ReviewProps {
  review: ReadReview;
}

type Figures = NonNullable<ReadReview['reliability']>;
type MtbfLine = Figures['sites'][number];
type AdvisedPart = ReadReview['advised'][number];

const { headings, columns } = REVIEW_WORDS;

/** Mean time between failures with its limits, and whether it grows. */
export function ReviewFailures({ review }: ReviewProps) {
  const { reliability } = review;
  return (
    <section>
      <h2>{headings.reliability}</h2>
      {reliability === null ? (
        <p>{REVIEW_WORDS.none}</p>
      ) : (
        <>
          {sentencesOf(reliability).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          {reliability.trend.warning !== null && (
            <p class="strong">{REVIEW_WORDS.trendWarning[reliability.trend.warning]}</p>
          )}
          <FailureChart review={review} />
          <MtbfChart review={review} />
          <MtbfTable review={review} sites={reliability.sites} />
        </>
      )}
    </section>
  );
}

function sentencesOf(figures: Figures): string[] {
  const words = REVIEW_WORDS;
  const { posterior, growth, trend, availability, hoursToRestore } = figures;
  return [
    words.record(figures),
    words.mtbf(figures, figures.confidence),
    words.posterior(posterior, figures.priorFrom),
    ...(growth === null ? [] : [words.growth(growth.growth, growth.mtbfHours)]),
    ...(['laplace', 'logSum', 'reverseArrangements'] as const).flatMap((name) => {
      const test = trend[name];
      return test === null ? [] : [words.trend(name, test.pRarer)];
    }),
    ...(availability === null || hoursToRestore === null
      ? []
      : [words.siteAvailable(availability, hoursToRestore)]),
  ];
}

function MtbfTable({ review, sites }: ReviewProps & { sites: MtbfLine[] }) {
  const words = YEAR_REVIEW_WORDS;
  const hours = (head: string, without: string, of: (line: MtbfLine) => number | null) => ({
    head,
    value: of,
    shown: (line: MtbfLine) => {
      const value = of(line);
      return value === null ? without : REVIEW_WORDS.hours(Math.round(value));
    },
  });
  return (
    <TableWithSheet
      label={headings.reliability}
      stacks
      caption={words.captions.reliability}
      download={CONTRACT_WORDS.csv}
      fileName={`${review.title}, ${headings.reliability}`}
      rows={sites}
      keyOf={({ siteId }) => siteId}
      columns={[
        { head: columns.site, value: ({ siteId }) => siteNameIn(review, siteId) },
        { head: words.failures, value: ({ failures }) => failures },
        hours(words.mtbfHours, '–', ({ mtbfHours }) => mtbfHours),
        hours(words.lowHours, '–', ({ lowHours }) => lowHours),
        hours(words.highHours, words.noLimit, ({ highHours }) => highHours),
      ]}
    />
  );
}

/** What is mended for the time being, and what is worth renewing. */
export function ReviewAdvice({ review }: ReviewProps) {
  const { advised, unfinished } = review;
  return (
    <section>
      <h2>{headings.advised}</h2>
      {unfinished.map(({ number, siteId, dueOn }) => (
        <p key={number}>{REVIEW_WORDS.unfinished(number, siteNameIn(review, siteId), dueOn)}</p>
      ))}
      {advised.length === 0 ? (
        <p>{REVIEW_WORDS.nothingAdvised}</p>
      ) : (
        <AdviceTable review={review} />
      )}
    </section>
  );
}

function AdviceTable({ review }: ReviewProps) {
  const words = YEAR_REVIEW_WORDS;
  const { currency } = review;
  return (
    <TableWithSheet
      label={headings.advised}
      stacks
      caption={words.captions.advised}
      download={CONTRACT_WORDS.csv}
      fileName={`${review.title}, ${headings.advised}`}
      rows={review.advised}
      keyOf={({ siteId, key }) => `${siteId} ${key}`}
      columns={[
        { head: words.part, value: (one: AdvisedPart) => one.words },
        { head: columns.site, value: ({ siteId }) => siteNameIn(review, siteId) },
        {
          head: words.chance,
          value: ({ chance }) => chance,
          shown: ({ chance }) => PAGE_FORMATS.chance(chance),
        },
        {
          head: words.chanceRenewed,
          value: ({ chanceRenewed }) => chanceRenewed,
          shown: ({ chanceRenewed }) => PAGE_FORMATS.chance(chanceRenewed),
        },
        {
          head: words.renewal,
          value: ({ renewalMinor }) =>
            renewalMinor === null ? null : major(renewalMinor, currency),
          shown: ({ renewalMinor }) =>
            renewalMinor === null ? CONTRACT_WORDS.costUnknown : money(renewalMinor, currency),
        },
        {
          head: words.paysBack,
          value: ({ paysBackYears }) => paysBackYears,
          shown: ({ paysBackYears }) =>
            paysBackYears === null ? '–' : PAGE_FORMATS.figure(paysBackYears, 2),
        },
      ]}
    />
  );
}
