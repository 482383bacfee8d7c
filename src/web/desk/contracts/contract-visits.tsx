import { TableWithSheet } from '../../parts/sheet-table.js';
import type { ContractRead } from './contract-page.js';
import { longDay } from '../../parts/time-words.js';
import { lastDay } from './contract-sentences.js';
import { visitsDone } from './contract-year.js';
import { today } from '../../parts/local-day.js';
import { bestDayFrom } from '../visits/visit-draft.js';
import { BOOK_VISIT_WORDS, CONTRACT_WORDS } from '../words/words.js';

interface BookLinkProps {
  siteId: string;
  siteName: string;
  from: string;
  ideal: string | null;
}

function BookLink({ siteId, siteName, from, ideal }: BookLinkProps) {
  const on = bestDayFrom(today(), { ideal, from });
  return (
    <a class="no-print" href={`/desk/visits/new?site=${siteId}&on=${on}`}>
      {BOOK_VISIT_WORDS.book}
      <span class="unseen">
        {' '}
        {siteName}, {longDay(on)}
      </span>
    </a>
  );
}

/** Every visit that was promised, and how it stands. */
export function ContractVisits({ contract, sites, visits }: ContractRead) {
  const words = CONTRACT_WORDS;
  const nameOf = (id: string) => sites.find((site) => site.id === id)?.name ?? '';
  const orNothing = (day: string | null) => (day === null ? '' : longDay(day));
  return (
    <section>
      <h2>{words.promisedVisits}</h2>
      {visits.years.map((year) => (
        <p key={year.year}>{words.yearSum(year.year, visitsDone(year), year.promised)}</p>
      ))}
      {visits.further.length > 0 && <p>{words.further(visits.further.length)}</p>}
      {visits.items.length > 0 && (
        <TableWithSheet
          label={words.promisedVisits}
          download={words.csv}
          fileName={`${contract.title}, ${words.promisedVisits}`}
          rows={visits.items}
          keyOf={({ siteId, year, ordinal }) => `${siteId} ${year} ${ordinal}`}
          columns={[
            { head: words.site, value: ({ siteId }) => nameOf(siteId) },
            { head: words.year, value: ({ year }) => year },
            { head: words.from, value: ({ from }) => from, shown: ({ from }) => longDay(from) },
            { head: words.last, value: ({ until }) => lastDay(until) },
            {
              head: words.best,
              value: ({ ideal }) => ideal,
              shown: ({ ideal }) => orNothing(ideal),
            },
            {
              head: words.standing,
              value: ({ standing }) => words.standings[standing],
              shown: ({ standing }) => (
                <span class={standing === 'late' || standing === 'missed' ? 'fresh' : undefined}>
                  {words.standings[standing]}
                </span>
              ),
            },
            {
              head: words.visitOn,
              value: ({ visitOn }) => visitOn,
              shown: ({ siteId, from, ideal, standing, visitOn }) =>
                visitOn === null && standing !== 'missed' ? (
                  <BookLink siteId={siteId} siteName={nameOf(siteId)} from={from} ideal={ideal} />
                ) : (
                  orNothing(visitOn)
                ),
            },
          ]}
        />
      )}
    </section>
  );
}
