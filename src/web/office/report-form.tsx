import { useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { TriedField } from '../parts/tried-field.js';
import { countMarks, type Marks, toReport, touch } from './marks.js';
import { NameField } from './name-field.js';
import type { Office } from './use-office.js';
import { RoomsField } from './rooms-field.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { ToldFunction, PassReportAnswer, PassSite, PassTicket } from '../parts/wire.js';

/** What was entered and not yet sent; of this site alone, whichever pass the tab opened before. */
interface Draft {
  site: string;
  tried?: ToldFunction;
  marks: Marks;
}

const DRAFT = 'report';

interface ReportFormProps {
  office: Office;
  site: PassSite;
  onSent: (tickets: PassTicket[]) => void;
}

export function ReportForm({ office, site, onSent }: ReportFormProps) {
  const [draft, setDraft] = useState(() => startDraft(office, site));
  const [attempts, setAttempts] = useState(0);
  const { isSending, failure, send } = useSending();
  // After a first attempt, what is missing is said until it is there.
  const missing = findMissing(draft, office.name);
  const wrong = (attempts > 0 ? missing : undefined) ?? failure;
  const form = useFocusOnWrong<HTMLFormElement>(`${attempts} ${String(failure)}`);
  const { tried, marks } = draft;
  const change = (part: Partial<Draft>) => {
    const changed = { ...draft, ...part };
    office.kept.write(DRAFT, changed);
    setDraft(changed);
  };
  const submit = (event: Event) => {
    event.preventDefault();
    setAttempts(attempts + 1);
    if (missing !== undefined || tried === undefined) return;
    send(async () => {
      const report = { name: office.name.trim(), ...toReport(site.rooms, marks, tried) };
      const { tickets } = await office.send<PassReportAnswer>('/reports', report);
      office.kept.write(DRAFT, undefined);
      await office.refresh().catch(() => undefined);
      onSent(tickets);
    });
  };
  const { fails, works } = countMarks(marks);
  const words = PAGE_WORDS.functions[tried ?? 'announcement'];
  return (
    <form onSubmit={submit} noValidate ref={form}>
      <h2>{OFFICE_WORDS.report.heading}</h2>
      <TriedField
        legend={OFFICE_WORDS.report.whatTried}
        value={tried}
        onValue={(name) => change({ tried: name })}
        error={wrong?.sentenceFor('/tried')}
      />
      <RoomsField
        rooms={site.rooms}
        marks={marks}
        words={words}
        onTouch={(key) => change({ marks: touch(marks, key) })}
        error={wrong?.sentenceFor('/observations')}
      />
      <NameField office={office} error={wrong?.sentenceFor('/name')} />
      <p role="status" class="count">
        {OFFICE_WORDS.report.count(fails, works, words)}
      </p>
      <FailureLine failure={failure} fields={['/name', '/observations']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? PAGE_WORDS.sending : PAGE_WORDS.send}
      </button>
    </form>
  );
}

function startDraft({ kept }: Office, { name }: PassSite): Draft {
  const draft = kept.read<Draft>(DRAFT);
  return draft?.site === name ? draft : { site: name, marks: {} };
}

function findMissing({ tried, marks }: Draft, name: string): Failure | undefined {
  const missing = OFFICE_WORDS.report.missing;
  const errors = [
    ...(tried === undefined ? [{ field: '/tried', reason: missing.tried }] : []),
    ...(Object.keys(marks).length === 0 ? [{ field: '/observations', reason: missing.rooms }] : []),
    ...(name.trim() === '' ? [{ field: '/name', reason: missing.name }] : []),
  ];
  return errors.length === 0 ? undefined : new Failure(422, missing.something, errors);
}
