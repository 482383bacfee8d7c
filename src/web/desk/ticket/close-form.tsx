import { useService } from '../../parts/service-context.js';
import { LongText } from '../../parts/text-field.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { TICKET_WORDS } from '../words/words.js';
import { EnterForm } from './enter-form.js';
import type { TicketViewProps } from './ticket-view.js';
import { useEntry } from './use-entry.js';

interface TurnedProps extends TicketViewProps {
  onEntered: (what: string) => void;
}

/** Closes a ticket, as where somebody rings that all is heard again; what goes unproven wants a reason, and the service says so. */
export function CloseForm(props: TurnedProps) {
  const { closeTicket, closeTicketWhy } = TICKET_WORDS;
  return <TurnForm {...props} to="closed" button={closeTicket} why={closeTicketWhy} />;
}

/** Opens a ticket again that was closed by mistake: its clock runs on, and what was entered wrongly can be taken back. */
export function ReopenForm(props: TurnedProps) {
  const { reopen, reopenWhy, reopenHint } = TICKET_WORDS;
  return <TurnForm {...props} to="reported" button={reopen} why={reopenWhy} hint={reopenHint} />;
}

interface TurnFormProps extends TurnedProps {
  to: 'closed' | 'reported';
  button: string;
  why: string;
  hint?: string;
}

function TurnForm({ ticket, onChanged, onEntered, to, button, why, hint }: TurnFormProps) {
  const { name } = useService().session.person;
  const purpose = `${to === 'closed' ? 'closing' : 'opening'} ${ticket.id}`;
  const isBegun = useIsBegun(purpose);
  const { draft, give, settle } = useDraft(purpose, { reason: '' });
  const { isSending, failure, enter } = useEntry();
  const body = { saidBy: { name, kind: 'office' }, to, reason: draft.reason.trim() || null };
  const turn = () =>
    enter(`/tickets/${ticket.id}/moves`, { body }, () => {
      settle();
      onEntered(button);
      onChanged();
    });
  return (
    <details open={isBegun}>
      <summary>{button}</summary>
      <EnterForm
        isSending={isSending}
        failure={failure}
        fields={['/reason']}
        onSubmit={turn}
        button={button}
      >
        {hint !== undefined && <p class="hint">{hint}</p>}
        <LongText
          label={why}
          value={draft.reason}
          onValue={(reason) => give({ reason })}
          error={failure?.sentenceFor('/reason')}
        />
      </EnterForm>
    </details>
  );
}
