import { FailureLine } from '../../parts/failure-line.js';
import { TextField } from '../../parts/text-field.js';
import type { RecordProps } from './record-page.js';
import { editInWords, fieldName, placeOf, valueInWords } from './record-words.js';
import type { RecordDraft } from './use-record-draft.js';
import { RECORD_WORDS } from '../words/words.js';

const OWN_FIELDS = ['/reason', '/changedBy'];

/** What is changed and not saved, what came of saving it, and what others did meanwhile. */
export function RecordSave(props: RecordProps) {
  const { draft } = props;
  const { edits, reason, failure, isSending, savedAs, trunks } = draft;
  const last = edits.at(-1);
  const submit = (event: Event) => {
    event.preventDefault();
    draft.save();
  };
  return (
    <form onSubmit={submit} noValidate class="record-save">
      <p role="status">
        {savedAs !== undefined && <strong>{RECORD_WORDS.saved(savedAs)} </strong>}
        {edits.length === 0 ? RECORD_WORDS.noChanges : RECORD_WORDS.changes(edits.length)}
        {last !== undefined && ` (${editInWords(last, trunks)})`}
      </p>
      <OthersChanged {...draft} />
      <Unfit {...draft} />
      {draft.refused.length > 0 ? (
        <Refused {...props} />
      ) : (
        <FailureLine failure={failure} fields={OWN_FIELDS} />
      )}
      <div class="record-why">
        <TextField
          label={RECORD_WORDS.why}
          autocomplete="off"
          maxLength={500}
          value={reason}
          onValue={draft.setReason}
          error={failure?.sentenceFor('/reason')}
        />
        <p class="buttons">
          <button type="submit" class="lead" aria-disabled={isSending || edits.length === 0}>
            {RECORD_WORDS.save}
          </button>
          <button type="button" aria-disabled={edits.length === 0} onClick={draft.undo}>
            {RECORD_WORDS.undo}
          </button>
          <button type="button" aria-disabled={edits.length === 0} onClick={draft.drop}>
            {RECORD_WORDS.dropAll}
          </button>
        </p>
      </div>
    </form>
  );
}

/** What both wrote is named: mine stands once I save. */
function OthersChanged({ meanwhile, edits, trunks }: RecordDraft) {
  if (meanwhile === undefined) return null;
  const { by, comparison } = meanwhile;
  const both = edits.flatMap((edit) => {
    if (edit.kind !== 'set') return [];
    const theirs = comparison.nodesChanged
      .find(({ trunk, node }) => trunk === edit.trunk && node === edit.node)
      ?.fields.find(({ field }) => field === edit.field);
    if (theirs === undefined) return [];
    return [RECORD_WORDS.both(editInWords(edit, trunks), valueInWords(theirs.after))];
  });
  return (
    <div class="notice" role="alert">
      <p>{RECORD_WORDS.meanwhile(by.changedBy ?? '', by.version, by.reason ?? '')}</p>
      {both.length > 0 && <p>{RECORD_WORDS.bothChanged}:</p>}
      <ul>
        {both.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </div>
  );
}

function Unfit({ unfit, trunks }: RecordDraft) {
  if (unfit.length === 0) return null;
  return (
    <div class="notice" role="alert">
      <p>{RECORD_WORDS.unfit(unfit.length)}</p>
      <ul>
        {unfit.map((edit, i) => (
          <li key={i}>{editInWords(edit, trunks)}</li>
        ))}
      </ul>
    </div>
  );
}

/** Each leads to its place. */
function Refused({ draft, onChoose }: RecordProps) {
  const { refused, trunks, failure } = draft;
  const own = OWN_FIELDS.filter((field) => failure?.reasonFor(field) !== undefined);
  const count = refused.length + own.length;
  return (
    <div role="alert">
      <p class="error">{RECORD_WORDS.refused(count)}</p>
      <ul>
        {refused.map(({ trunk, node, field, reason }, i) => {
          const place = node === null ? trunk : placeOf(trunks, trunk, node);
          const words = RECORD_WORDS.wrongAt(place, fieldName(field), reason);
          return (
            <li key={i}>
              {node === null ? (
                words
              ) : (
                <button type="button" class="small" onClick={() => onChoose({ trunk, node })}>
                  {words}
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </div>
  );
}
