import { useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import type { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { keepIn } from '../../parts/kept.js';
import { forgetId, repeatId } from '../../parts/repeat-id.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadVisit } from '../../parts/wire.js';
import type { TicketViewProps } from './ticket-view.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import type { TypedChange } from '../visits/visit-change.js';
import { WhenAndWho } from '../visits/when-and-who.js';
import { whenInWords } from '../visits/when-in-words.js';
import { BOOK_VISIT_WORDS, TICKET_WORDS } from '../words/words.js';

const kept = keepIn(() => sessionStorage);

interface SentOut extends TypedChange {
  reason: string;
}

/** Plans the visit, and says that somebody must go; what is asked about goes through once it is said to be meant so. */
function useSendingOut(
  { ticket, site, location, onChanged }: TicketViewProps,
  { technicianId, on, fromTime, untilTime, reason }: SentOut,
  onSent: (visit: ReadVisit) => void,
) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const sendOut = (confirmed: readonly string[]) =>
    send(async () => {
      const visit = {
        siteId: site.id,
        kind: 'call-out',
        on,
        fromTime: fromTime || null,
        untilTime: untilTime || null,
        technicianId: technicianId || null,
        purpose: location?.places[0]?.words ?? TICKET_WORDS.ticket(ticket.number),
        ticketIds: [ticket.id],
        confirmed,
        ...(ticket.moves.includes('to-visit') && {
          sending: {
            ticketIds: [ticket.id],
            saidBy: { name: service.session.person.name, kind: 'office' },
            reason: reason.trim() || null,
          },
        }),
      };
      const path = `/visits for ${ticket.id}`;
      const body = { id: repeatId(kept, path, visit, uuidv7), ...visit };
      const sent = await service.send<ReadVisit>('POST', '/visits', { body });
      forgetId(kept, path);
      onSent(sent);
      onChanged();
    });
  return { isSending, failure, sendOut };
}

const FIELDS = ['/technicianId', '/on', '/fromTime', '/untilTime', '/sending/reason'];

export function SendForm(props: TicketViewProps) {
  const { site, ticket } = props;
  const purpose = `sending for ${ticket.id}`;
  const isBegun = useIsBegun(purpose);
  const anyTime = { fromTime: '', untilTime: '' };
  const first = { technicianId: '', on: todayAt(site.zone), ...anyTime, reason: '' };
  const { draft, give, settle } = useDraft<SentOut>(purpose, first);
  const [sent, setSent] = useState('');
  const { isSending, failure, sendOut } = useSendingOut(props, draft, (visit) => {
    settle();
    setSent(sentInWords(visit, props.technicians));
  });
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const asked = failure?.confirm ?? [];
  const submit = (event: Event) => {
    event.preventDefault();
    setSent('');
    sendOut([]);
  };
  return (
    <details open={isBegun}>
      <summary>{TICKET_WORDS.send}</summary>
      <form onSubmit={submit} noValidate ref={form}>
        <SendFields {...props} draft={draft} give={give} failure={failure} />
        <FailureLine failure={failure} fields={FIELDS} />
        <p class="buttons">
          <button type="submit" class="main" aria-disabled={isSending}>
            {TICKET_WORDS.sendButton}
          </button>
          {asked.length > 0 && (
            <button type="button" aria-disabled={isSending} onClick={() => sendOut(asked)}>
              {TICKET_WORDS.meantSo}
            </button>
          )}
        </p>
        <p role="status">{sent}</p>
      </form>
    </details>
  );
}

function sentInWords(visit: ReadVisit, technicians: TicketViewProps['technicians']): string {
  const who = technicians.find(({ id }) => id === visit.technicianId)?.name;
  return TICKET_WORDS.sent(who ?? BOOK_VISIT_WORDS.nobody, whenInWords(visit));
}

interface SendFieldsProps extends TicketViewProps {
  draft: SentOut;
  give: (more: Partial<SentOut>) => void;
  failure: Failure | undefined;
}

function SendFields({ site, technicians, draft, give, failure }: SendFieldsProps) {
  return (
    <>
      <WhenAndWho zone={site.zone} shown={draft} {...{ technicians, give, failure }} />
      <TextField
        label={TICKET_WORDS.sendWhy}
        autocomplete="off"
        maxLength={2000}
        value={draft.reason}
        onValue={(reason) => give({ reason })}
        error={failure?.sentenceFor('/sending/reason')}
      />
    </>
  );
}

function todayAt(timeZone: string): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone }).format(new Date());
}
