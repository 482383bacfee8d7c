import { useEffect, useId, useState } from 'preact/hooks';
import { DRAWING_WORDS } from '../../parts/drawing/drawing-words.js';
import type { SaidOutcome } from '../../parts/drawing/drawn-facts.js';
import type { NodeAt } from '../../parts/drawing/trunk-drawing.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import type { ToldThing } from '../../parts/wire.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { namesOn } from './cause-of.js';
import type { TicketViewProps } from './ticket-view.js';
import { TICKET_WORDS } from '../words/words.js';

interface TogetherProps extends TicketViewProps {
  /** The rooms in question are ringed on the drawing. */
  onMarked: (nodes: NodeAt[]) => void;
}

/** Joins reports of one fault, and splits those of two. */
export function TicketTogether(props: TogetherProps) {
  const { role } = useService().session.person;
  if (role !== 'owner' && role !== 'dispatcher') return null;
  return (
    <section>
      <JoinForm {...props} />
      <SplitForm {...props} />
    </section>
  );
}

/** What was chosen before a reload is ringed again. */
function useMarkedBefore(isAny: boolean, mark: () => void): void {
  useEffect(() => {
    if (isAny) mark();
    // Once, as the page opens.
  }, []);
}

const NOTHING_CHOSEN: { chosen: readonly string[] } = { chosen: [] };

function JoinForm({ ticket, others, onMarked, onChanged }: TogetherProps) {
  const service = useService();
  const id = useId();
  const purpose = `joining of ${ticket.id}`;
  const { draft, give, settle } = useDraft(purpose, { into: '' });
  const isBegun = useIsBegun(purpose);
  const { isSending, failure, send } = useSending();
  // One that was chosen before a reload may be closed by now.
  const into = others.some((one) => one.id === draft.into) ? draft.into : '';
  const mark = async (other: string) => {
    if (other === '') return onMarked([]);
    const { items } = await service.read<{ items: ToldThing[] }>(`/tickets/${other}/observations`);
    onMarked(items.filter(({ outcome }) => outcome !== 'works'));
  };
  useMarkedBefore(into !== '', () => void mark(into));
  if (others.length === 0) return <p class="soft">{TICKET_WORDS.joinNone}</p>;
  const choose = (other: string) => {
    if (other === '') settle();
    else give({ into: other });
    return mark(other);
  };
  const join = () =>
    send(async () => {
      const saidBy = { name: service.session.person.name, kind: 'office' };
      await service.send('POST', `/tickets/${ticket.id}/merge`, { body: { saidBy, into } });
      settle();
      onMarked([]);
      onChanged();
    });
  return (
    <details open={isBegun}>
      <summary>{TICKET_WORDS.join}</summary>
      <p class="field">
        <label for={id}>{TICKET_WORDS.joinWhich}</label>
        <select id={id} value={into} onChange={(event) => void choose(event.currentTarget.value)}>
          <option value="" />
          {others.map((one) => (
            <option key={one.id} value={one.id}>
              {one.number} {one.likeliest?.words}
            </option>
          ))}
        </select>
      </p>
      <FailureLine failure={failure} />
      <button
        type="button"
        aria-disabled={isSending || into === ''}
        onClick={() => into !== '' && join()}
      >
        {TICKET_WORDS.joinButton}
      </button>
    </details>
  );
}

function SplitForm({ ticket, told, record, onMarked, onChanged }: TogetherProps) {
  const service = useService();
  const purpose = `splitting of ${ticket.id}`;
  const { draft, give, settle } = useDraft(purpose, NOTHING_CHOSEN);
  const isBegun = useIsBegun(purpose);
  const [isLacking, setLacking] = useState(false);
  const { isSending, failure, send } = useSending();
  const nameOf = namesOn(record.trunks);
  const standing = told.filter(({ withdrawal }) => withdrawal === null);
  // What was chosen before a reload may be withdrawn by now.
  const chosen = draft.chosen.filter((id) => standing.some((one) => one.id === id));
  const mark = (ids: readonly string[]) => onMarked(standing.filter(({ id }) => ids.includes(id)));
  useMarkedBefore(chosen.length > 0, () => mark(chosen));
  const choose = (one: ToldThing, isChosen: boolean) => {
    const next = isChosen ? [...chosen, one.id] : chosen.filter((id) => id !== one.id);
    if (next.length === 0) settle();
    else give({ chosen: next });
    mark(next);
  };
  const split = () => {
    setLacking(chosen.length === 0);
    if (chosen.length === 0) return;
    send(async () => {
      const saidBy = { name: service.session.person.name, kind: 'office' };
      const body = { saidBy, observationIds: chosen };
      await service.send('POST', `/tickets/${ticket.id}/split`, { body });
      settle();
      onMarked([]);
      onChanged();
    });
  };
  return (
    <details open={isBegun}>
      <summary>{TICKET_WORDS.split}</summary>
      <p class="hint">{TICKET_WORDS.splitHint}</p>
      <ul class="plain">
        {standing.map((one) => (
          <li key={one.id}>
            <label>
              <input
                type="checkbox"
                checked={chosen.includes(one.id)}
                onChange={(event) => choose(one, event.currentTarget.checked)}
              />{' '}
              {nameOf(one.trunk, one.node)}:{' '}
              {DRAWING_WORDS.functions[one.function as keyof typeof DRAWING_WORDS.functions]}{' '}
              {DRAWING_WORDS.marks[one.outcome as SaidOutcome]}
            </label>
          </li>
        ))}
      </ul>
      {isLacking && <p class="error">{TICKET_WORDS.splitNone}</p>}
      <FailureLine failure={failure} />
      <button type="button" aria-disabled={isSending} onClick={split}>
        {TICKET_WORDS.splitButton}
      </button>
    </details>
  );
}
