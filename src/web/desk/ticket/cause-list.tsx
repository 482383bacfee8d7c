import { wholePercents } from '#app/words/index.js';
import { useId, useState } from 'preact/hooks';
import { firstToShow, namesOn, shownCauses } from './cause-of.js';
import type { TicketViewProps } from './ticket-view.js';
import { causeInWords, pointInWords } from './ticket-words.js';
import { TICKET_WORDS } from '../words/words.js';

/** Why one room is silent, causes that add up, and what was told that does not fit. */
export function CauseList({ location, record }: Pick<TicketViewProps, 'location' | 'record'>) {
  const [chosen, setChosen] = useState<number>();
  const id = useId();
  const nameOf = namesOn(record.trunks);
  const { troubles = [], againstTheRest = [] } = location?.result ?? {};
  const surprising = location?.surprise?.mostSurprising ?? [];
  const at = chosen ?? firstToShow(troubles);
  const trouble = troubles[at] ?? troubles[0];
  if (trouble === undefined) return null;
  const name = ({ trunk, node, function: tried }: typeof trouble) =>
    pointInWords(nameOf(trunk, node), tried);
  const causes = shownCauses(trouble);
  const percents = wholePercents(causes.map(({ probability }) => probability));
  return (
    <section>
      <h2>{TICKET_WORDS.why}</h2>
      {troubles.length > 1 ? (
        <p class="field">
          <label for={id}>{TICKET_WORDS.which}</label>
          <select
            id={id}
            value={at}
            onChange={(event) => setChosen(event.currentTarget.selectedIndex)}
          >
            {troubles.map((one, i) => (
              <option key={i} value={i}>
                {name(one)}
              </option>
            ))}
          </select>
        </p>
      ) : null}
      <p>{TICKET_WORDS.whyNot(name(trouble))}</p>
      <table class="causes">
        <tbody>
          {causes.map(({ cause }, i) => (
            <tr key={i}>
              <th scope="row">{causeInWords(cause, nameOf)}</th>
              <td class="number">{percents[i]} %</td>
            </tr>
          ))}
        </tbody>
      </table>
      {againstTheRest.length > 0 && surprising.length > 0 && (
        <>
          <h3>{TICKET_WORDS.contradicting}</h3>
          <ul>
            {surprising.map(({ observationId, words }) => (
              <li key={observationId}>{words}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
