import { useEffect, useRef, useState } from 'preact/hooks';
import { PAGE_WORDS } from '../parts/language.js';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { SERVICE_CLOCK } from '../parts/service-clock.js';
import { SignaturePad } from '../parts/signature-pad.js';
import { LongText, TextField } from '../parts/text-field.js';
import { minutesTyped } from '../parts/typed-number.js';
import { shortDay } from '../parts/time-words.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import type { DeskTicket, ReadVisit, ReadVisitChecklist } from '../parts/wire.js';
import { useEntering } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import type { EntrySubject, OutboxEntry } from './outbox.js';
import { Photos } from './photo-form.js';
import { withoutTakenBack } from './mended-here.js';
import { useField, useUntold } from './use-field.js';
import { useFieldDraft } from './use-field-draft.js';

/** A visit: it begins, the work is said, it ends, and somebody of the site signs for it. */
export function VisitPage({ id }: { id?: string }) {
  const { work } = useField();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const visit = work?.value.visits.find((one) => one.id === id);
  const own = useUntold().filter(({ path }) => path.startsWith(`/visits/${id}/`));
  const refused = own.find(isRefused);
  const page = useFocusOnWrong<HTMLElement>(work && refused?.order);
  useEffect(() => {
    document.title = FIELD_WORDS.openVisit;
  }, []);
  if (work === undefined) return <p role="status">{PAGE_WORDS.oneMoment}</p>;
  const { sites, tickets, signed } = work.value;
  const site = sites.find((one) => one.id === visit?.siteId);
  if (visit === undefined || site === undefined) return <h1>{PAGE_WORDS.nothingHere}</h1>;
  const subject = { ticketId: null, visitId: visit.id, siteId: site.id, name: site.name };
  return (
    <article ref={page}>
      <h1 tabIndex={-1} ref={heading}>
        {site.name}
      </h1>
      <p>
        {shortDay(visit.on)}: {visit.purpose}
      </p>
      <p>
        <a href={`/field/visits/${visit.id}/sheet`}>{FIELD_WORDS.jobSheet}</a>
      </p>
      {site.safetyNotes !== null && <p class="notice">{site.safetyNotes}</p>}
      <TicketsOfVisit open={tickets.filter((one) => visit.ticketIds.includes(one.id))} />
      <VisitWork visit={visit} own={own} subject={subject} isSigned={signed.includes(visit.id)} />
    </article>
  );
}

/**
 * The visit's tickets as they were first located here: one that is closed meanwhile is not among the open ones any more, and nothing
 * above may move while somebody signs.
 */
function useTicketsSeen(now: readonly DeskTicket[]): DeskTicket[] {
  const seen = useRef(new Map<string, DeskTicket>());
  for (const ticket of now)
    if (!seen.current.get(ticket.id)?.likeliest) seen.current.set(ticket.id, ticket);
  return [...seen.current.values()];
}

/** What came of a ticket is on its own page, which is not there any more of one that is closed. */
function TicketsOfVisit({ open }: { open: readonly DeskTicket[] }) {
  return useTicketsSeen(open).map(({ id, number, likeliest }) => {
    const about = `${number}, ${likeliest?.words ?? FIELD_WORDS.notLocated}`;
    const isOpen = open.some((one) => one.id === id);
    return <p key={id}>{isOpen ? <a href={`/field/tickets/${number}`}>{about}</a> : about}</p>;
  });
}

interface VisitWorkProps {
  visit: ReadVisit;
  /** What was entered here of it. */
  own: readonly OutboxEntry[];
  subject: EntrySubject;
  isSigned: boolean;
}

/** What comes next of it; what was refused is not so, and is entered anew. */
function VisitWork({ visit, own, subject, isSigned }: VisitWorkProps) {
  const { entries } = useField();
  const standing = own.filter((one) => one.state !== 'refused');
  const moved = standing.filter(({ path }) => path.endsWith('/moves')).at(-1)?.body['to'];
  const state = (moved ?? visit.state) as ReadVisit['state'];
  const refusedOf = (to: string | undefined) =>
    own.find((one) => isRefused(one) && one.body['to'] === to);
  const mended = withoutTakenBack(entries).filter(
    ({ subject: { ticketId }, path }) =>
      ticketId !== null && visit.ticketIds.includes(ticketId) && path.endsWith('/mendings'),
  );
  const done = mended.map(({ words }) => words).join('. ');
  // What came of a touch here is gone on with; a page that is opened begins at its top.
  const opened = useRef(state);
  const isNext = state !== opened.current;
  const isSaid = isSigned || standing.some(({ path }) => path.endsWith('/signatures'));
  return (
    <>
      {state === 'planned' && <BeginVisit subject={subject} instead={refusedOf('under-way')} />}
      {state === 'under-way' && (
        <EndVisit
          subject={subject}
          instead={refusedOf('done')}
          done={done}
          isNext={isNext}
          isUpkeep={visit.upkeep}
        />
      )}
      {state === 'done' &&
        (isSaid ? (
          <p role="status">{FIELD_WORDS.signed}</p>
        ) : (
          <SignVisit subject={subject} instead={refusedOf(undefined)} isNext={isNext} />
        ))}
      {(state === 'under-way' || state === 'done') && (
        <details>
          <summary>{FIELD_WORDS.menu.photo}</summary>
          <Photos of={`/visits/${visit.id}`} subject={subject} />
        </details>
      )}
    </>
  );
}

/** A step of the visit, or its signature, that the service did not take. */
function isRefused({ state, path }: OutboxEntry): boolean {
  return state === 'refused' && /\/(moves|signatures)$/.test(path);
}

interface VisitFormProps {
  subject: EntrySubject;
  /** The first of the visit’s entries that was refused: it is what is entered anew. */
  instead: OutboxEntry | undefined;
}

function BeginVisit({ subject, instead }: VisitFormProps) {
  const { person } = useField();
  const { enter, failure, refused } = useEntering(subject, instead);
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
      <FailureLine failure={refused} />
    </p>
  );
}

interface NextFormProps extends VisitFormProps {
  /** It came by what was done on the page before it. */
  isNext: boolean;
}

/** As it is typed. */
interface EndOfVisit {
  workDone: string;
  travel: string;
}

interface EndVisitProps extends NextFormProps {
  done: string;
  isUpkeep: boolean;
}

function EndVisit({ subject, instead, done, isUpkeep, isNext }: EndVisitProps) {
  const { person } = useField();
  const checklist = useChecklist(isUpkeep ? subject.visitId : null);
  const isPartly = checklist !== undefined && checklist.missing > 0;
  const [isMeant, setMeant] = useState(false);
  const { enter, failure, refused, wrong } = useEntering(subject, instead);
  const before = (instead?.body ?? {}) as { workDone?: string; travelMinutes?: number | null };
  const purpose = `end of ${subject.visitId} ${instead?.order ?? ''}`;
  const { draft, give, settle } = useFieldDraft<Partial<EndOfVisit>>(purpose, {});
  const workDone = draft.workDone ?? before.workDone ?? done;
  const travel = draft.travel ?? String(before.travelMinutes ?? '');
  const minutes = minutesTyped(travel);
  const isReady = workDone.trim() !== '' && minutes !== undefined;
  const end = () => {
    const said = { workDone: workDone.trim(), travelMinutes: minutes };
    const confirmed = isPartly && isMeant ? ['not-all-heard'] : [];
    const body = { to: 'done', by: person.name, ...said, confirmed };
    const path = `/visits/${subject.visitId}/moves`;
    if (isReady) enter([{ path, body, words: FIELD_WORDS.visitEnded }], () => settle());
  };
  return (
    <section>
      <NextHeading isNext={isNext}>{FIELD_WORDS.menu.end}</NextHeading>
      <LongText
        label={FIELD_WORDS.whatWasDone}
        value={workDone}
        onValue={(text) => give({ workDone: text })}
        error={wrong('/workDone')}
      />
      <TextField
        label={FIELD_WORDS.travelMinutes}
        value={travel}
        onValue={(text) => give({ travel: text })}
        autocomplete="off"
        inputMode="decimal"
        maxLength={6}
        error={minutes === undefined ? FIELD_WORDS.travelNumber : wrong('/travelMinutes')}
      />
      {isPartly && (
        <p class="notice">
          {FIELD_WORDS.tried(checklist.heard, checklist.toHear)}{' '}
          <button type="button" aria-pressed={isMeant} onClick={() => setMeant(!isMeant)}>
            {FIELD_WORDS.meantSo}
          </button>
        </p>
      )}
      <FailureLine failure={refused} fields={['/workDone', '/travelMinutes']} />
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
function SignVisit({ subject, instead, isNext }: NextFormProps) {
  const { enter, failure, refused, wrong } = useEntering(subject, instead);
  const before = (instead?.body ?? {}) as Readonly<
    Record<'name' | 'remark' | 'drawn', string | null | undefined>
  >;
  const [name, setName] = useState(before.name ?? '');
  const [remark, setRemark] = useState(before.remark ?? '');
  const [drawn, setDrawn] = useState(before.drawn ?? '');
  const sign = () => {
    if (name.trim() === '') return;
    const signedAt = new Date(SERVICE_CLOCK.now()).toISOString();
    const texts = { name: name.trim(), remark: remark.trim() || null, drawn: drawn || null };
    const body = { ...texts, signedAt };
    const path = `/visits/${subject.visitId}/signatures`;
    enter([{ path, body, words: FIELD_WORDS.signedBy(name.trim()) }]);
  };
  return (
    <section>
      <NextHeading isNext={isNext}>{FIELD_WORDS.sign}</NextHeading>
      <p class="hint">{FIELD_WORDS.signHint}</p>
      <TextField
        label={FIELD_WORDS.signName}
        value={name}
        onValue={setName}
        autocomplete="off"
        maxLength={200}
        error={wrong('/name')}
      />
      <SignaturePad value={drawn} onValue={setDrawn} error={wrong('/drawn')} />
      <LongText
        label={FIELD_WORDS.remark}
        value={remark}
        onValue={setRemark}
        error={wrong('/remark')}
      />
      <FailureLine failure={refused} fields={['/name', '/drawn', '/remark']} />
      {failure !== undefined && <p class="error">{failure}</p>}
      <button type="button" class="main" aria-disabled={name.trim() === ''} onClick={sign}>
        {FIELD_WORDS.signButton}
      </button>
    </section>
  );
}

function NextHeading({ isNext, children }: { isNext: boolean; children: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return isNext ? (
    <h2 tabIndex={-1} ref={heading}>
      {children}
    </h2>
  ) : (
    <h2>{children}</h2>
  );
}
