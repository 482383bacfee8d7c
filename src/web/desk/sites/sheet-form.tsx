import { useId, useRef, useState } from 'preact/hooks';
import { base64Of, bytesOfBase64 } from '../../parts/base64-of.js';
import type { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { FieldComplaint, TextField } from '../../parts/text-field.js';
import { useSending } from '../../parts/use-sending.js';
import type { SheetChange, ReadSite } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import { SITE_WORDS } from '../words/words.js';

interface SheetFormProps {
  site: ReadSite;
  version: number;
  onSaved: () => void;
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** A sheet is checked first: each thing wrong with its line and column; then it is saved with a reason. */
export function SheetForm({ site, version, onSaved }: SheetFormProps) {
  const id = useId();
  const file = useRef<HTMLInputElement>(null);
  const { checked, lacking, draft, give, isSending, failure, check, save, choose, isSaved } =
    useSheet({ site, version, onSaved }, file);
  const isOfSheet = failure?.errors.some(({ line }) => line !== undefined) === true;
  return (
    <section>
      <h2>{SITE_WORDS.sheet}</h2>
      <p class="hint">{SITE_WORDS.sheetHint}</p>
      {version > 0 && (
        <p>
          <a href={`/api/v1/sites/${site.id}/as-built/sheet`} download target="_self">
            {SITE_WORDS.download}
          </a>
        </p>
      )}
      <div class="field">
        <label for={id}>{SITE_WORDS.file}</label>
        <input
          id={id}
          ref={file}
          type="file"
          accept=".csv,.xlsx,.txt"
          onChange={() => void choose()}
          aria-describedby={lacking ? `${id}-error` : undefined}
        />
        {draft.sheet !== null && <p class="hint">{SITE_WORDS.sheetKept(draft.sheet.name)}</p>}
        <FieldComplaint id={`${id}-error`} reason={lacking ? SITE_WORDS.noFile : undefined} />
      </div>
      <button type="button" aria-disabled={isSending} onClick={check}>
        {isSending ? SITE_WORDS.checking : SITE_WORDS.check}
      </button>
      <div role="status">{isSaved && <p>{SITE_WORDS.saved}</p>}</div>
      {isOfSheet && failure ? <SheetErrors failure={failure} /> : <FailureLine failure={failure} />}
      {checked !== undefined && (
        <>
          <p role="status">{SITE_WORDS.fits(countChanges(checked))}</p>
          <SheetNotes notes={checked.notes} />
          <TextField
            label={SITE_WORDS.why}
            autocomplete="off"
            maxLength={500}
            value={draft.reason}
            onValue={(reason) => give({ reason })}
            error={failure?.sentenceFor('reason')}
          />
          <button type="button" class="main" aria-disabled={isSending} onClick={save}>
            {SITE_WORDS.save}
          </button>
        </>
      )}
    </section>
  );
}

/** Of the sheet that was chosen before a reload; a browser gives no file back. */
interface SheetDraft {
  sheet: { name: string; base64: string } | null;
  reason: string;
}

const NO_SHEET: SheetDraft = { sheet: null, reason: '' };

/** A larger one is to be chosen again after a reload: a tab keeps some megabytes in all. */
const MOST_KEPT_BYTES = 1_000_000;

function useSheet(
  { site, version, onSaved }: SheetFormProps,
  file: { current: HTMLInputElement | null },
) {
  const service = useService();
  const [checked, setChecked] = useState<SheetChange>();
  const [lacking, setLacking] = useState(false);
  const { draft, give, settle } = useDraft(`sheet of ${site.id}`, NO_SHEET);
  const [isSaved, setSaved] = useState(false);
  const { isSending, failure, send } = useSending();
  const put = (query: Record<string, string>, onAnswer: (answer: SheetChange) => void) => {
    const sheet = file.current?.files?.[0] ?? sheetBefore(draft);
    setLacking(sheet === undefined);
    setChecked(undefined);
    setSaved(false);
    if (sheet === undefined) return;
    send(async () => {
      const type = sheet.name.endsWith('.xlsx') ? XLSX : 'text/csv';
      const asked = { body: await sheet.arrayBuffer(), type, ifMatch: version };
      const path = `/sites/${site.id}/as-built/sheet?${new URLSearchParams(query).toString()}`;
      onAnswer(await service.send<SheetChange>('PUT', path, asked));
    });
  };
  return {
    checked,
    lacking,
    draft,
    give,
    isSending,
    failure,
    isSaved,
    choose: async () => {
      setChecked(undefined);
      const chosen = file.current?.files?.[0];
      const isKept = chosen !== undefined && chosen.size <= MOST_KEPT_BYTES;
      give({ sheet: isKept ? { name: chosen.name, base64: await base64Of(chosen) } : null });
    },
    check: () => put({ check: 'true' }, setChecked),
    save: () =>
      put({ changedBy: service.session.person.name, reason: draft.reason }, () => {
        settle();
        setSaved(true);
        onSaved();
      }),
  };
}

function sheetBefore({ sheet }: SheetDraft): File | undefined {
  return sheet === null ? undefined : new File([bytesOfBase64(sheet.base64)], sheet.name);
}

function countChanges({ changes }: SheetChange): number {
  return Object.values(changes).reduce((sum, { length }) => sum + length, 0);
}

function SheetErrors({ failure }: { failure: Failure }) {
  return (
    <div role="alert">
      <p class="error">{SITE_WORDS.wrong(failure.errors.length)}</p>
      <table>
        <thead>
          <tr>
            <th scope="col">{SITE_WORDS.line}</th>
            <th scope="col">{SITE_WORDS.column}</th>
            <th scope="col">{SITE_WORDS.value}</th>
            <th scope="col">{SITE_WORDS.reason}</th>
          </tr>
        </thead>
        <tbody>
          {failure.errors.map(({ line, column, field, value, reason }, i) => (
            <tr key={i}>
              <td class="number">{line}</td>
              <td>{column ?? field}</td>
              <td>{value}</td>
              <td>{reason}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function SheetNotes({ notes }: Pick<SheetChange, 'notes'>) {
  if (notes.length === 0) return null;
  return (
    <>
      <h3>{SITE_WORDS.notes}</h3>
      <ul>
        {notes.map(({ line, column, note, words = note }, i) => (
          <li key={i}>
            {SITE_WORDS.line} {line}
            {column !== undefined && `, ${column}`}: {words}
          </li>
        ))}
      </ul>
    </>
  );
}
