import { useEffect, useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { SignaturePad } from '../parts/signature-pad.js';
import { TextField } from '../parts/text-field.js';
import { shortDay } from '../parts/time-words.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { ReadVisit, ReadVisitChecklist } from '../parts/wire.js';
import { useEntering } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import { LongText } from './note-form.js';
import type { EntrySubject } from './outbox.js';
import { Photos } from './photo-form.js';
import { useField } from './use-field.js';

/** A visit: it begins, the work is said, it ends, and somebody of the site signs for it. */
export function VisitPage({ id }: { id?: string }) {
  const { work, entries } = useField();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const visit = work?.value.visits.find((one) => one.id === id);
  useEffect(() => {
    document.title = FIELD_WORDS.openVisit;
  }, []);
  if (work === undefined) return <p role="status">{FIELD_WORDS.oneMoment}</p>;
  const { sites, tickets, signed } = work.value;
  const site = sites.find((one) => one.id === visit?.siteId);
  if (visit === undefined || site === undefined) return <h1>{FIELD_WORDS.nothingHere}</h1>;
  const subject = { ticketId: null, visitId: visit.id, siteId: site.id, name: site.name };
  const own = entries.filter(({ path }) => path.startsWith(`/visits/${visit.id}/`));
  const moved = own.filter(({ path }) => path.endsWith('/moves')).at(-1)?.body['to'];
  const state = (moved ?? visit.state) as ReadVisit['state'];
  const isSigned =
    signed.includes(visit.id) || own.some(({ path }) => path.endsWith('/signatures'));
  const words = entries
    .filter(
      ({ subject: { ticketId }, path }) =>
        ticketId !== null && visit.ticketIds.includes(ticketId) && path.endsWith('/mendings'),
    )
    .map((entry) => entry.words);
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {site.name}
      </h1>
      <p>
        {shortDay(visit.on)}: {visit.purpose}
      </p>
      {site.safetyNotes !== null && <p class="notice">{site.safetyNotes}</p>}
      {tickets
        .filter((one) => visit.ticketIds.includes(one.id))
        .map((one) => (
          <p key={one.id}>
            <a href={`/field/tickets/${one.number}`}>
              {one.number}, {one.likeliest?.words ?? FIELD_WORDS.notLocated}
            </a>
          </p>
        ))}
      {state === 'planned' && <BeginVisit subject={subject} />}
      {state === 'under-way' && (
        <EndVisit subject={subject} done={words.join('. ')} isUpkeep={visit.upkeep} />
      )}
      {state === 'done' &&
        (isSigned ? <p role="status">{FIELD_WORDS.signed}</p> : <SignVisit subject={subject} />)}
      {(state === 'under-way' || state === 'done') && (
        <details>
          <summary>{FIELD_WORDS.menu.photo}</summary>
          <Photos of={`/visits/${visit.id}`} subject={subject} />
        </details>
      )}
    </article>
  );
}

function BeginVisit({ subject }: { subject: EntrySubject }) {
  const { person } = useField();
  const { enter, failure } = useEntering(subject);
  const body = { to: 'under-way', by: person.name };
  const path = `/visits/${subject.visitId}/moves`;
  return (
    <p>
      <button
        type="button"
        class="main"
        onClick={() => enter([{ path, body, words: FIELD_WORDS.begun }])}
      >
        {FIELD_WORDS.begin}
      </button>
      {failure !== undefined && <span class="error">{failure}</span>}
    </p>
  );
}

interface EndVisitProps {
  subject: EntrySubject;
  done: string;
  isUpkeep: boolean;
}

function EndVisit({ subject, done, isUpkeep }: EndVisitProps) {
  const { person } = useField();
  const checklist = useChecklist(isUpkeep ? subject.visitId : null);
  const isPartly = checklist !== undefined && checklist.missing > 0;
  const [isMeant, setMeant] = useState(false);
  const { enter, failure } = useEntering(subject);
  const [workDone, setWorkDone] = useState(done);
  const [travel, setTravel] = useState('');
  const minutes = /^\d{1,4}$/.test(travel) ? Number(travel) : null;
  const isReady = workDone.trim() !== '' && (travel === '' || minutes !== null);
  const end = () => {
    const said = { workDone: workDone.trim(), travelMinutes: minutes };
    const confirmed = isPartly && isMeant ? ['not-all-heard'] : [];
    const body = { to: 'done', by: person.name, ...said, confirmed };
    const path = `/visits/${subject.visitId}/moves`;
    if (isReady) enter([{ path, body, words: FIELD_WORDS.visitEnded }]);
  };
  return (
    <section>
      <h2>{FIELD_WORDS.menu.end}</h2>
      <LongText label={FIELD_WORDS.whatWasDone} value={workDone} onValue={setWorkDone} />
      <TextField
        label={FIELD_WORDS.travelMinutes}
        value={travel}
        onValue={setTravel}
        autocomplete="off"
        maxLength={4}
      />
      {isPartly && (
        <p class="notice">
          {FIELD_WORDS.tried(checklist.heard, checklist.toHear)}{' '}
          <button type="button" aria-pressed={isMeant} onClick={() => setMeant(!isMeant)}>
            {FIELD_WORDS.meantSo}
          </button>
        </p>
      )}
      {failure !== undefined && <p class="error">{failure}</p>}
      <button type="button" class="main" aria-disabled={!isReady} onClick={end}>
        {FIELD_WORDS.endVisit}
      </button>
    </section>
  );
}

/** What was heard by now, where the service is reached; else the service asks once it is. */
function useChecklist(visitId: string | null): ReadVisitChecklist | undefined {
  const { readings } = useField();
  const [checklist, setChecklist] = useState<ReadVisitChecklist>();
  useEffect(() => {
    if (visitId === null) return;
    ask<ReadVisitChecklist>('GET', `/visits/${visitId}/checklist`).then(
      setChecklist,
      (error: unknown) => {
        if (!(error instanceof Failure)) throw error;
      },
    );
  }, [visitId, readings]);
  return checklist;
}

/** The phone is handed over. */
function SignVisit({ subject }: { subject: EntrySubject }) {
  const { enter, failure } = useEntering(subject);
  const [name, setName] = useState('');
  const [remark, setRemark] = useState('');
  const [drawn, setDrawn] = useState('');
  const sign = () => {
    if (name.trim() === '') return;
    const body = { name: name.trim(), remark: remark.trim() || null, drawn: drawn || null };
    const path = `/visits/${subject.visitId}/signatures`;
    enter([{ path, body, words: FIELD_WORDS.signedBy(name.trim()) }]);
  };
  return (
    <section>
      <h2>{FIELD_WORDS.sign}</h2>
      <p class="hint">{FIELD_WORDS.signHint}</p>
      <TextField
        label={FIELD_WORDS.signName}
        value={name}
        onValue={setName}
        autocomplete="off"
        maxLength={200}
      />
      <SignaturePad value={drawn} onValue={setDrawn} />
      <LongText label={FIELD_WORDS.remark} value={remark} onValue={setRemark} />
      {failure !== undefined && <p class="error">{failure}</p>}
      <button type="button" class="main" aria-disabled={name.trim() === ''} onClick={sign}>
        {FIELD_WORDS.signButton}
      </button>
    </section>
  );
}
