import { useState } from 'preact/hooks';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { atSite } from '../../parts/time-words.js';
import { namesOn } from './cause-of.js';
import { EnterForm } from './enter-form.js';
import { heardOf, type LearnedThing, lookAt, readingOff } from './learned.js';
import { mendingsIn } from './mendings.js';
import type { TicketViewProps } from './ticket-view.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { useEntry } from './use-entry.js';
import { EVIDENCE_WORDS } from '../words/words.js';

/** So many of a kind are shown until all are asked for. */
const SHOWN_FIRST = 12;

/** Everything that was learned, who said so, and whether something goes by it; each can be taken back. */
export function LearnedList(props: TicketViewProps) {
  const { told, readings, looks, record, location, log, ticket } = props;
  const nameOf = namesOn(record.trunks);
  const leftOut = new Map(
    [
      ...(location?.observationsLeftOut ?? []),
      ...(location?.readingsLeftOut ?? []),
      ...(location?.looksLeftOut ?? []),
    ].map(({ id, reason }) => [id, reason]),
  );
  const mendings = mendingsIn(log, ticket.id);
  const kinds = [
    {
      title: EVIDENCE_WORDS.heard(told.length),
      items: told.map((one) => heardOf(one, nameOf, leftOut)),
    },
    {
      title: EVIDENCE_WORDS.readings(readings.length),
      items: readings.map((one) => readingOff(one, nameOf, leftOut)),
    },
    {
      title: EVIDENCE_WORDS.looks(looks.length),
      items: looks.map((one) => lookAt(one, nameOf, leftOut)),
    },
    {
      title: EVIDENCE_WORDS.mendings(mendings.length),
      items: mendings,
      hint: EVIDENCE_WORDS.mendingBackHint,
    },
  ].filter(({ items }) => items.length > 0);
  return (
    <section>
      <h2>{EVIDENCE_WORDS.learned}</h2>
      {kinds.length === 0 && <p>{EVIDENCE_WORDS.nothing}</p>}
      {kinds.map((kind) => (
        <OfOneKind key={kind.title} {...kind} page={props} />
      ))}
    </section>
  );
}

interface OfOneKindProps {
  title: string;
  items: readonly LearnedThing[];
  /** What comes of taking one back. */
  hint?: string;
  page: TicketViewProps;
}

/** The newest first. */
function OfOneKind({ title, items, page, hint = EVIDENCE_WORDS.takeBackHint }: OfOneKindProps) {
  const [isAll, setAll] = useState(false);
  const newest = [...items].reverse();
  const shown = isAll ? newest : newest.slice(0, SHOWN_FIRST);
  return (
    <>
      <h3>{title}</h3>
      <ul class="plain learned">
        {shown.map((one) => (
          <LearnedItem key={one.id} learned={one} hint={hint} page={page} />
        ))}
      </ul>
      {shown.length < items.length && (
        <button type="button" class="small" onClick={() => setAll(true)}>
          {EVIDENCE_WORDS.all(items.length)}
        </button>
      )}
    </>
  );
}

interface LearnedItemProps extends Required<Pick<OfOneKindProps, 'hint' | 'page'>> {
  learned: LearnedThing;
}

function LearnedItem({ learned, hint, page }: LearnedItemProps) {
  const { words, by, at, note, withdrawal, leftOut, path } = learned;
  const { site, ticket } = page;
  const isOpen = ticket.state !== 'closed' && ticket.state !== 'merged';
  return (
    <li>
      <span class={withdrawal === null ? undefined : 'withdrawn'}>{words}</span>{' '}
      <span class="soft">{EVIDENCE_WORDS.by(by, atSite(at, site.zone))}</span>
      {note !== null && <span> {note}</span>}
      {withdrawal !== null && (
        <p class="soft">
          {EVIDENCE_WORDS.withdrawn(
            withdrawal.saidBy,
            atSite(withdrawal.happenedAt, site.zone),
            withdrawal.reason,
          )}
        </p>
      )}
      {withdrawal === null && leftOut !== undefined && (
        <p class="soft">{EVIDENCE_WORDS.leftOut(leftOut)}</p>
      )}
      {withdrawal === null && isOpen && path !== null && (
        <TakeBack
          what={words}
          hint={hint}
          path={`/tickets/${ticket.id}/${path}`}
          onDone={page.onChanged}
        />
      )}
    </li>
  );
}

interface TakeBackProps {
  what: string;
  hint: string;
  path: string;
  onDone: () => void;
}

/** Takes back what was entered in the wrong place, with a reason. */
function TakeBack({ what, hint, path, onDone }: TakeBackProps) {
  const { person } = useService().session;
  const isBegun = useIsBegun(path);
  const { draft, give, settle } = useDraft(path, { reason: '' });
  const { reason } = draft;
  const { isSending, failure, enter } = useEntry();
  const submit = () => {
    const by = { name: person.name, kind: person.role === 'technician' ? 'technician' : 'office' };
    enter(`${path}/withdraw`, { body: { saidBy: by, reason: reason.trim() } }, () => {
      settle();
      onDone();
    });
  };
  return (
    <details class="take-back" open={isBegun}>
      <summary>
        {EVIDENCE_WORDS.takeBack}
        <span class="unseen"> {what}</span>
      </summary>
      <EnterForm
        {...{ isSending, failure }}
        fields={['/reason']}
        onSubmit={submit}
        button={EVIDENCE_WORDS.takeBackButton}
      >
        <TextField
          label={EVIDENCE_WORDS.why}
          hint={hint}
          autocomplete="off"
          maxLength={2000}
          value={reason}
          onValue={(why) => give({ reason: why })}
          error={failure?.sentenceFor('/reason')}
        />
      </EnterForm>
    </details>
  );
}
