import { TableWithSheet } from '../../parts/sheet-table.js';
import type { ContractRead } from './contract-page.js';
import { lastDay, longDay } from './contract-sentences.js';
import { visitsDone } from './contract-year.js';
import { CONTRACT_WORDS } from '../words/words.js';

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
              shown: ({ visitOn }) => orNothing(visitOn),
            },
          ]}
        />
      )}
    </section>
  );
}
