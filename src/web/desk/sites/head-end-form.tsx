import { useState } from 'preact/hooks';
import { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { PAGE_FORMATS } from '../../parts/language.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadDrawnRecord } from '../../parts/wire.js';
import { useTyped } from '../use-typed.js';
import { HEAD_END_FIELDS, headEndDraft, headEndOf } from './head-end-draft.js';
import { fieldName } from './record-words.js';
import { RECORD_WORDS } from '../words/words.js';

interface HeadEndProps {
  record: ReadDrawnRecord;
  onSaved: () => void;
}

const OWN_FIELDS = [...HEAD_END_FIELDS.map((name) => `/headEnd/${name}`), '/reason'];

/** What the record says of the head-end and its supply, to be changed by hand. */
export function HeadEndForm({ record, onSaved }: HeadEndProps) {
  const words = RECORD_WORDS.headEndForm;
  const known = headEndDraft(record.headEnd);
  return (
    <section>
      <h2>{words.heading}</h2>
      <table class="causes">
        <tbody>
          {HEAD_END_FIELDS.map((name) => (
            <tr key={name}>
              <th scope="row">{words.labels[name]}</th>
              <td>{known[name] || '–'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <ChangeForm record={record} onSaved={onSaved} />
    </section>
  );
}

function useHeadEnd({ record, onSaved }: HeadEndProps) {
  const service = useService();
  const { siteId } = record;
  const first = { ...headEndDraft(record.headEnd), reason: '' };
  const typed = useTyped(`head-end ${siteId}`, record, first);
  const [lacking, setLacking] = useState<Failure>();
  const [savedAs, setSavedAs] = useState<number>();
  const { isSending, failure, send } = useSending();
  const save = (event: Event) => {
    event.preventDefault();
    setSavedAs(undefined);
    const made = headEndOf(typed.draft);
    const reason = RECORD_WORDS.headEndForm.number;
    const wrong = 'wrong' in made ? made.wrong : [];
    const errors = wrong.map((name) => ({ field: `/headEnd/${name}`, reason }));
    setLacking(errors.length === 0 ? undefined : new Failure(422, reason, errors));
    if ('wrong' in made) return;
    const path = `/sites/${siteId}/as-built`;
    const read = () => service.read<ReadDrawnRecord>(path);
    send(async () => {
      const { trunks, version } = typed.source;
      const changedBy = service.session.person.name;
      const body = { headEnd: made.headEnd, trunks, changedBy, reason: typed.draft.reason };
      try {
        await service.send('PUT', path, { body, ifMatch: version });
      } catch (error) {
        if (!(error instanceof Failure) || error.status !== 412) throw error;
        const now = await read();
        return typed.meet(now, { ...headEndDraft(now.headEnd), reason: '' });
      }
      const saved = await read();
      typed.settle(saved, { ...headEndDraft(saved.headEnd), reason: '' });
      setSavedAs(saved.version);
      onSaved();
    });
  };
  return { typed, failed: lacking ?? failure, savedAs, isSending, save };
}

function ChangeForm(props: HeadEndProps) {
  const { typed, failed, savedAs, isSending, save } = useHeadEnd(props);
  const [isBegun] = useState(typed.isTyped);
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const words = RECORD_WORDS.headEndForm;
  return (
    <details open={isBegun}>
      <summary>{words.change}</summary>
      <form onSubmit={save} noValidate ref={form}>
        <p class="hint">{words.hint}</p>
        <div class="fields">
          {HEAD_END_FIELDS.map((name) => (
            <TextField
              key={name}
              label={words.labels[name]}
              autocomplete="off"
              maxLength={100}
              {...(name === 'installedOn' && { type: 'date' as const })}
              value={typed.draft[name]}
              onValue={(value) => typed.give({ [name]: value })}
              error={failed?.sentenceFor(`/headEnd/${name}`)}
            />
          ))}
        </div>
        <TextField
          label={words.why}
          autocomplete="off"
          maxLength={500}
          value={typed.draft.reason}
          onValue={(reason) => typed.give({ reason })}
          error={failed?.sentenceFor('/reason')}
        />
        <FailureLine failure={failed} fields={OWN_FIELDS} />
        {typed.meanwhile !== undefined && <Meanwhile both={typed.meanwhile} />}
        <button type="submit" class="lead" aria-disabled={isSending || !typed.isTyped}>
          {words.save}
        </button>
      </form>
      <p role="status">{savedAs !== undefined && !typed.isTyped && RECORD_WORDS.saved(savedAs)}</p>
    </details>
  );
}

function Meanwhile({ both }: { both: readonly string[] }) {
  const words = RECORD_WORDS.headEndForm;
  return (
    <div class="notice" role="alert">
      <p>{words.meanwhile}</p>
      {both.length > 0 && (
        <p>
          {RECORD_WORDS.bothChanged}: {PAGE_FORMATS.and(both.map(fieldName))}
        </p>
      )}
    </div>
  );
}
