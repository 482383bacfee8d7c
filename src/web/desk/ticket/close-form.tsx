import { useService } from '../../parts/service-context.js';
import { LongText } from '../../parts/text-field.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { TICKET_WORDS } from '../words/words.js';
import { EnterForm } from './enter-form.js';
import type { TicketViewProps } from './ticket-view.js';
import { useEntry } from './use-entry.js';

/** Closes a ticket, as where somebody rings that all is heard again; what goes unproven wants a reason, and the service says so. */
export function CloseForm({ ticket, onChanged }: TicketViewProps) {
  const { name } = useService().session.person;
  const purpose = `closing ${ticket.id}`;
  const isBegun = useIsBegun(purpose);
  const { draft, give, settle } = useDraft(purpose, { reason: '' });
  const { isSending, failure, enter } = useEntry();
  const body = {
    saidBy: { name, kind: 'office' },
    to: 'closed',
    reason: draft.reason.trim() || null,
  };
  const close = () =>
    enter(`/tickets/${ticket.id}/moves`, { body }, () => {
      settle();
      onChanged();
    });
  return (
    <details open={isBegun}>
      <summary>{TICKET_WORDS.closeTicket}</summary>
      <EnterForm
        isSending={isSending}
        failure={failure}
        fields={['/reason']}
        onSubmit={close}
        button={TICKET_WORDS.closeTicket}
      >
        <LongText
          label={TICKET_WORDS.closeTicketWhy}
          value={draft.reason}
          onValue={(reason) => give({ reason })}
          error={failure?.sentenceFor('/reason')}
        />
      </EnterForm>
    </details>
  );
}
