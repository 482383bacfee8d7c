import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { Choice } from '../parts/choice.js';
import { LongText } from '../parts/text-field.js';
import { useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import type { KeptInWords } from './kept-work.js';
import type { ToEnter } from './outbox-keeper.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';

const WHERE = ['cabinet', 'elsewhere', 'nowhere'] as const;
type Where = (typeof WHERE)[number];

/** What was found, as far as it can be said without a drawing: of all places the head-end alone is at every site. */
function findingBody(where: Where): { place: { kind: 'head-end' } | null } | undefined {
  if (where === 'elsewhere') return undefined;
  return { place: where === 'cabinet' ? { kind: 'head-end' } : null };
}

/** Closing a ticket where there are no rooms on record to try: by what was found, and how it is known to work. */
export function CloseInWords({ kept, subject, visit }: FieldTicketProps<KeptInWords>) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, wrong } = entering;
  const { route } = useLocation();
  const [where, setWhere] = useState<Where>();
  const [typed, setTyped] = useState('');
  const reason = typed.trim();
  const close = () => {
    if (where === undefined || reason === '') return;
    const saidBy = { name: person.name, kind: 'technician' };
    const at = `/tickets/${kept.value.ticket.id}`;
    const found = findingBody(where);
    const finding: ToEnter[] =
      found === undefined
        ? []
        : [{ path: `${at}/findings`, body: { saidBy, ...found, note: reason }, words: reason }];
    const words = `${FIELD_WORDS.closed}: ${reason}`;
    const move = { path: `${at}/moves`, body: { saidBy, to: 'closed', reason }, words };
    enter([...finding, move], () =>
      route(visit === undefined ? '/field' : `/field/visits/${visit.id}`),
    );
  };
  const isReady = where !== undefined && reason !== '';
  return (
    <EntrySection title={FIELD_WORDS.close} entering={entering} fields={['/reason', '/note']}>
      <Choice
        legend={FIELD_WORDS.whereFound}
        names={FIELD_WORDS.foundWhere}
        of={WHERE}
        value={where}
        onValue={setWhere}
      />
      <LongText
        label={FIELD_WORDS.whyClosed}
        value={typed}
        onValue={setTyped}
        error={wrong('/reason', '/note')}
      />
      <button type="button" class="main" aria-disabled={!isReady} onClick={close}>
        {FIELD_WORDS.close}
      </button>
      {!isReady && <p class="hint">{FIELD_WORDS.chooseFirst}</p>}
    </EntrySection>
  );
}
