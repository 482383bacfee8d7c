import { useEffect, useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { LongText } from '../parts/text-field.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { agoInWords } from './ages.js';
import { useKeeping } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import type { KeptWork } from './kept-work.js';
import { mendingTakenBack } from './mended-here.js';
import { isHeldUp, type OutboxEntry, stillHere } from './outbox.js';
import { labelOfField } from './refused-fields.js';
import { useField } from './use-field.js';

/** Everything that the service does not have yet, and what it refused, to be settled. */
export function WaitingPage() {
  const { entries, keeper } = useField();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  useEffect(() => {
    document.title = FIELD_WORDS.waitingHeading;
  }, []);
  const here = stillHere(entries);
  return (
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.waitingHeading}
      </h1>
      <p>{here.length === 0 ? FIELD_WORDS.nothingWaits : FIELD_WORDS.waitingHint}</p>
      <ul class="jobs">
        {here.map((entry) => (
          <li key={entry.order} class="card">
            <p class="strong">{entry.words}</p>
            <p class="soft">
              {entry.subject.name}, {agoInWords(entry.happenedAt)}
            </p>
            {entry.refusal !== null ? (
              <Refused entry={entry} />
            ) : (
              <p>{isHeldUp(entry, entries) ? FIELD_WORDS.heldUp : FIELD_WORDS.waits}</p>
            )}
          </li>
        ))}
      </ul>
      {here.length > 0 && (
        <button type="button" onClick={keeper.sync}>
          {FIELD_WORDS.sendNow}
        </button>
      )}
    </section>
  );
}

/** Where the same can be entered in another way: a finding by choosing the part anew, a room of a walk test by itself. */
const FORMS: Readonly<Record<string, string>> = {
  reports: 'room',
  'walk-tests': 'room',
  looks: 'part',
  readings: 'reading',
  findings: 'part',
  mendings: 'found',
  notes: 'note',
  photos: 'photo',
};

/** Where that is; undefined: nowhere here. */
function formOf({ subject, path }: OutboxEntry, { tickets }: KeptWork): string | undefined {
  if (path.startsWith('/visits/')) return `/field/visits/${subject.visitId}`;
  const ticket = tickets.find(({ id }) => id === subject.ticketId);
  const isBack = mendingTakenBack({ path }) !== undefined;
  const form = path === '/visits' ? 'take' : isBack ? 'take-back' : FORMS[path.split('/')[3] ?? ''];
  return ticket && form && `/field/tickets/${ticket.number}/${form}`;
}

/** What is wrong with which field, as the forms call it. */
function WrongFields({ refusal }: Pick<OutboxEntry, 'refusal'>) {
  const errors = refusal?.errors ?? [];
  if (errors.length === 0) return null;
  const failure = new Failure(422, '', errors);
  return (
    <ul>
      {errors.map(({ field }) => (
        <li key={field}>
          <span class="strong">{labelOfField(field)}</span> {failure.sentenceFor(field)}
        </li>
      ))}
    </ul>
  );
}

function Refused({ entry }: { entry: OutboxEntry }) {
  const { keeper, work } = useField();
  const { keep, failure } = useKeeping();
  const [isDiscarding, setDiscarding] = useState(false);
  const [reason, setReason] = useState('');
  const { refusal } = entry;
  const changeAt = work && formOf(entry, work.value);
  const other = refusal?.mergedInto ?? null;
  const discard = () => {
    if (reason.trim() === '') return;
    const note = FIELD_WORDS.discardedNote(entry.words, reason.trim());
    keep(() => keeper.discard(entry, note));
  };
  return (
    <div class="notice">
      <p>{FIELD_WORDS.refusedBecause(refusal?.message ?? '')}</p>
      <WrongFields refusal={refusal} />
      {failure !== undefined && <p class="error">{failure}</p>}
      <div class="buttons">
        {(refusal?.confirm ?? []).length > 0 && (
          <button type="button" onClick={() => keep(() => keeper.confirm(entry))}>
            {FIELD_WORDS.meantSo}
          </button>
        )}
        {other !== null && (
          <button type="button" onClick={() => keep(() => keeper.sendTo(entry, other))}>
            {FIELD_WORDS.sendToOther}
          </button>
        )}
        {changeAt !== undefined && (
          <a class="button" href={`${changeAt}?instead=${entry.order}`}>
            {FIELD_WORDS.enterAnew}
          </a>
        )}
        <button type="button" onClick={() => keep(() => keeper.sendAgain(entry))}>
          {FIELD_WORDS.onceMore}
        </button>
        <button
          type="button"
          aria-expanded={isDiscarding}
          onClick={() => setDiscarding(!isDiscarding)}
        >
          {FIELD_WORDS.discard}
        </button>
      </div>
      {isDiscarding && (
        <>
          <LongText label={FIELD_WORDS.discardWhy} value={reason} onValue={setReason} />
          <button type="button" aria-disabled={reason.trim() === ''} onClick={discard}>
            {FIELD_WORDS.discardNow}
          </button>
        </>
      )}
    </div>
  );
}
