import { useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import type { FoundHere } from '../../parts/drawing/drawn-facts.js';
import type { NodeAt } from '../../parts/drawing/trunk-drawing.js';
import type { FoundAtSiteList, ReadDrawnRecord } from '../../parts/wire.js';
import { namesOn } from '../ticket/cause-of.js';
import { foundAtNodes, foundByYear, nodeOfFound, yearOf } from './found-history.js';
import { nameOfPart } from '../ticket/look-entry.js';
import { RECORD_WORDS } from '../words/words.js';

/** What was ever found at a site, of all years or of one. */
export function useFound({ items }: FoundAtSiteList, zone: string) {
  const [year, setYear] = useState('');
  const shown = items.filter((one) => year === '' || yearOf(one, zone) === year);
  const atNodes: FoundHere[] = foundAtNodes(shown);
  return { year, setYear, shown, atNodes };
}

interface FoundProps extends ReturnType<typeof useFound> {
  found: FoundAtSiteList;
  zone: string;
  record: ReadDrawnRecord;
  chosen: NodeAt | undefined;
}

/** Chooses the years, and says what was found at the chosen place. */
export function SiteFound({ found, zone, record, chosen, year, setYear, shown }: FoundProps) {
  const years = foundByYear(found.items, zone);
  if (years.length === 0) return null;
  const here = shown.filter(
    (one) => one.place.trunk === chosen?.trunk && nodeOfFound(one) === chosen?.node,
  );
  return (
    <div class="narrow">
      <ChooseField
        label={`${RECORD_WORDS.found}. ${RECORD_WORDS.foundYears}`}
        value={year}
        choices={[
          { value: '', words: RECORD_WORDS.allYears(found.items.length) },
          ...years.map((one) => {
            return { value: one.year, words: RECORD_WORDS.ofYear(one.year, one.count) };
          }),
        ]}
        onValue={setYear}
      />
      <p class="hint">{RECORD_WORDS.foundHint}</p>
      {found.more > 0 && <p>{RECORD_WORDS.foundMore(found.more)}</p>}
      {chosen !== undefined && here.length === 0 && <p>{RECORD_WORDS.foundNone}</p>}
      <ul>
        {here.map(({ id, place, component, mode, ticketNumber, ...one }) => {
          const part = mode ?? component ?? place.kind;
          const named = { place, part, group: null, component: component ?? place.kind };
          const what = nameOfPart(
            named as Parameters<typeof nameOfPart>[0],
            namesOn(record.trunks),
          );
          return (
            <li key={id}>
              {RECORD_WORDS.foundLine(yearOf(one, zone), what)}{' '}
              <a href={`/desk/tickets/${ticketNumber}`}>{RECORD_WORDS.ofTicket(ticketNumber)}</a>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
