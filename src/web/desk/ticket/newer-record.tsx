import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import type { TicketViewProps } from './ticket-view.js';
import { useEntry } from './use-entry.js';
import { TICKET_WORDS } from '../words/words.js';

const CLOSED: readonly string[] = ['closed', 'merged'];

/** Where the site was drawn anew since: has the ticket go by that. */
export function NewerRecord({ ticket, site, onChanged }: TicketViewProps) {
  const { person } = useService().session;
  const { isSending, failure, enter } = useEntry();
  const { asBuiltVersion: own } = ticket;
  const { asBuiltVersion: newest } = site;
  if (own >= newest || CLOSED.includes(ticket.state)) return null;
  const words = TICKET_WORDS.newerRecord;
  const kind = person.role === 'technician' ? 'technician' : 'office';
  const body = { saidBy: { name: person.name, kind }, asBuiltVersion: newest };
  const moveOn = () => enter(`/tickets/${ticket.id}/newer-record`, { body }, onChanged);
  return (
    <section class="narrow">
      <h2>{words.heading}</h2>
      <p>
        {words.versions(own, newest)}{' '}
        <a href={`/desk/sites/${site.id}/versions?from=${own}&to=${newest}`}>{words.compare}</a>
      </p>
      <p class="hint">{words.hint}</p>
      <FailureLine failure={failure} />
      <button type="button" class="lead" aria-disabled={isSending} onClick={moveOn}>
        {words.button}
      </button>
    </section>
  );
}
