import { useState } from 'preact/hooks';
import { DRAWING_WORDS } from '../../parts/drawing/drawing-words.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import { movedPlaces, namesOn, placeName } from './cause-of.js';
import type { TicketViewProps } from './ticket-view.js';
import { movedInWords, pointInWords } from './ticket-words.js';
import type { Suppose } from './use-suppose.js';
import { TICKET_WORDS } from '../words/words.js';

/** What a supposition moves, before and after, and that nothing was recorded. */
export function SupposedBox(props: TicketViewProps & { suppose: Suppose }) {
  const { suppose, location, record, ticket, onChanged } = props;
  const service = useService();
  const { isSending, failure, send } = useSending();
  const [asked, setAsked] = useState('');
  const nameOf = namesOn(record.trunks);
  if (suppose.supposed.length === 0) return <p role="status" class="unseen" />;
  const what = suppose.supposed.map(
    ({ trunk, node, function: tried, outcome }) =>
      `${pointInWords(nameOf(trunk, node), tried)}: ${DRAWING_WORDS.marks[outcome]}`,
  );
  const moved =
    suppose.result === undefined
      ? []
      : movedPlaces(location?.result.places ?? [], suppose.result.places);
  const note = TICKET_WORDS.pleaseCheck(what.map((one) => one.replace(/: .*$/, '')).join(', '));
  const askFor = () =>
    send(async () => {
      const saidBy = { name: service.session.person.name, kind: 'office' };
      await service.send('POST', `/tickets/${ticket.id}/notes`, { body: { saidBy, note } });
      setAsked(note);
      onChanged();
    });
  return (
    <section class="supposed" aria-label={TICKET_WORDS.suppose}>
      <p>
        <strong>{TICKET_WORDS.supposed}</strong> {what.join('; ')}.
      </p>
      <div role="status">
        {suppose.isWorking ? (
          <p>{TICKET_WORDS.loading}</p>
        ) : moved.length === 0 ? (
          <p>{TICKET_WORDS.unchanged}</p>
        ) : (
          <table class="causes">
            <tbody>
              {moved.map(({ place, before, after }) => (
                <tr key={placeName(place, nameOf)}>
                  <th scope="row">{placeName(place, nameOf)}</th>
                  <td class="number">{movedInWords(before, after)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </div>
      <FailureLine failure={failure} />
      <p class="buttons">
        <button type="button" onClick={suppose.end}>
          {TICKET_WORDS.end}
        </button>
        <button type="button" aria-disabled={isSending || asked === note} onClick={askFor}>
          {asked === note ? TICKET_WORDS.asked : TICKET_WORDS.askFor}
        </button>
      </p>
    </section>
  );
}
