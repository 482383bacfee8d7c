import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { LongText } from '../parts/text-field.js';
import { TriedField } from '../parts/tried-field.js';
import { countMarks, touch, touchAll } from './marks.js';
import { NameField } from './name-field.js';
import { BesidesFields } from './besides-fields.js';
import type { Office } from './use-office.js';
import {
  REPORT_DRAFT,
  findMissing,
  marksOf,
  type ReportDraft,
  reportOf,
  startDraft,
  withMarks,
  withTried,
} from './report-draft.js';
import { RoomsField } from './rooms-field.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { PassReportAnswer, PassSite, PassTicket, ToldFunction } from '../parts/wire.js';

const WORDS = OFFICE_WORDS.report;
const FIELDS = ['/name', '/observations', '/note', '/urgentReason', '/callBackPhone'];

interface ReportFormProps {
  office: Office;
  site: PassSite;
  onSent: (tickets: PassTicket[]) => void;
}

export function ReportForm({ office, site, onSent }: ReportFormProps) {
  const { draft, change, why, isSending, failure, submit, form } = useReport(office, site, onSent);
  const isDrawn = site.rooms.length > 0;
  return (
    <form onSubmit={submit} noValidate ref={form}>
      <h2>{WORDS.heading}</h2>
      <RoomsPart draft={draft} site={site} onChange={change} why={why} />
      <NameField office={office} error={why('/name')} />
      <BesidesFields draft={draft} isDrawn={isDrawn} onChange={change} why={why} />
      {isDrawn && (
        <p role="status" class="count">
          {told(draft).join(' ')}
        </p>
      )}
      <FailureLine failure={failure} fields={FIELDS} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? PAGE_WORDS.sending : PAGE_WORDS.send}
      </button>
    </form>
  );
}

function useReport(office: Office, site: PassSite, onSent: ReportFormProps['onSent']) {
  const [draft, setDraft] = useState(() => startDraft(office, site));
  const [attempts, setAttempts] = useState(0);
  const { isSending, failure, send } = useSending();
  // After a first attempt, what is missing is said until it is there.
  const missing = findMissing(draft, site, office.name);
  const wrong = (attempts > 0 ? missing : undefined) ?? failure;
  const form = useFocusOnWrong<HTMLFormElement>(`${attempts} ${String(failure)}`);
  const change = (part: Partial<ReportDraft>) => {
    const changed = { ...draft, ...part };
    office.kept.write(REPORT_DRAFT, changed);
    setDraft(changed);
  };
  const submit = (event: Event) => {
    event.preventDefault();
    setAttempts(attempts + 1);
    if (missing !== undefined) return;
    send(async () => {
      const report = reportOf(draft, site, office.name);
      const { tickets } = await office.send<PassReportAnswer>('/reports', report);
      office.kept.write(REPORT_DRAFT, undefined);
      await office.refresh().catch(() => undefined);
      onSent(tickets);
    });
  };
  const why = (field: string) => wrong?.sentenceFor(field);
  return { draft, change, why, isSending, failure, submit, form };
}

interface RoomsPartProps {
  draft: ReportDraft;
  site: PassSite;
  onChange: (part: Partial<ReportDraft>) => void;
  why: (field: string) => string | undefined;
}

/** The rooms to touch; words where nobody has drawn them. */
function RoomsPart({ draft, site, onChange, why }: RoomsPartProps) {
  if (site.rooms.length === 0)
    return (
      <>
        <p class="hint">{WORDS.inWords.hint}</p>
        <LongText
          label={WORDS.inWords.label}
          value={draft.note}
          onValue={(note) => onChange({ note })}
          error={why('/note')}
        />
      </>
    );
  const marks = marksOf(draft);
  return (
    <>
      <TriedField
        legend={WORDS.whatTried}
        value={draft.tried}
        onValue={(tried) => onChange(withTried(draft, tried))}
        error={why('/tried')}
        beside={countsBeside(draft)}
      />
      <RoomsField
        rooms={site.rooms}
        marks={marks}
        words={PAGE_WORDS.functions[draft.tried ?? 'announcement']}
        onTouch={(key) => onChange(withMarks(draft, touch(marks, key)))}
        onTouchAll={(rooms) => onChange(withMarks(draft, touchAll(marks, rooms)))}
        error={why('/observations')}
      />
    </>
  );
}

/** What was said of each thing that was tried, told where several were. */
function countsBeside(draft: ReportDraft): Partial<Record<ToldFunction, string>> {
  const told = Object.entries(draft.marks).filter(([, marks]) => Object.keys(marks).length > 0);
  return Object.fromEntries(
    told.map(([name, marks]) => {
      const words = PAGE_WORDS.functions[name as ToldFunction];
      return [name, WORDS.count(countMarks(marks), words)];
    }),
  );
}

function told(draft: ReportDraft): string[] {
  const counts = Object.entries(countsBeside(draft));
  const words = PAGE_WORDS.functions;
  if (counts.length > 1)
    return counts.map(([name, count]) => `${words[name as ToldFunction].tried}: ${count}.`);
  return [WORDS.count(countMarks(marksOf(draft)), words[draft.tried ?? 'announcement'])];
}
