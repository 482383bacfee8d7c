import { useMemo, useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import { TrunkDrawing } from '../../parts/drawing/trunk-drawing.js';
import { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { keepIn } from '../../parts/kept.js';
import { forgetId, repeatId } from '../../parts/repeat-id.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { TriedField } from '../../parts/tried-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadDrawnRecord, Reported, ReadSite } from '../../parts/wire.js';
import {
  asSaid,
  type CallDraft,
  EMPTY_CALL,
  setRoom,
  toReporting,
  touchRoom,
} from './call-draft.js';
import { CALL_WORDS } from '../words/words.js';

interface CallFormProps {
  site: ReadSite;
  record: ReadDrawnRecord;
  onSent: (sent: Reported) => void;
}

const kept = keepIn(() => sessionStorage);

export function CallForm({ site, record, onSent }: CallFormProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { draft, change, wrong, isSending, send } = useCall(site, onSent);
  const form = useFocusOnWrong<HTMLFormElement>(wrong);
  const submit = (event: Event) => {
    event.preventDefault();
    send();
  };
  return (
    <form onSubmit={submit} noValidate ref={form}>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {site.name}
        </h1>
        <p>{site.address}</p>
        <a href="/desk/call">{CALL_WORDS.otherSite}</a>
      </div>
      <TriedField
        legend={CALL_WORDS.tried}
        value={draft.tried}
        onValue={(tried) => change({ ...draft, tried })}
        error={wrong?.sentenceFor('/tried')}
      />
      <CallRooms record={record} draft={draft} onDraft={change} />
      <div class="narrow">
        <TextField
          label={CALL_WORDS.caller}
          autocomplete="off"
          maxLength={200}
          value={draft.caller}
          onValue={(caller) => change({ ...draft, caller })}
          error={wrong?.sentenceFor('/saidBy')}
        />
        <TextField
          label={CALL_WORDS.remark}
          autocomplete="off"
          maxLength={5000}
          value={draft.remark}
          onValue={(remark) => change({ ...draft, remark })}
          error={wrong?.sentenceFor('/note')}
        />
        <FailureLine failure={wrong} fields={['/tried', '/saidBy', '/note']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {isSending ? CALL_WORDS.sending : CALL_WORDS.send}
        </button>
      </div>
    </form>
  );
}

interface CallRoomsProps {
  record: ReadDrawnRecord;
  draft: CallDraft;
  onDraft: (draft: CallDraft) => void;
}

/** The rooms to touch. */
function CallRooms({ record, draft, onDraft }: CallRoomsProps) {
  const said = useMemo(() => asSaid(draft), [draft]);
  const count = (outcome: string) => draft.said.filter((one) => one.outcome === outcome).length;
  if (record.trunks.length === 0) return <p>{CALL_WORDS.nothingDrawn}</p>;
  return (
    <>
      <p class="hint">
        {CALL_WORDS.touch} <span class="keys">{CALL_WORDS.touchKeys}</span>
      </p>
      <TrunkDrawing
        cables={record.trunks}
        said={said}
        onChoose={(node) => onDraft(touchRoom(draft, node))}
        onLetter={(node, outcome) => onDraft(setRoom(draft, node, outcome))}
      />
      <p role="status" class="count">
        {CALL_WORDS.count(count('fails'), count('works'), count('weak'))}
      </p>
    </>
  );
}

/** What was entered, which a reload does not lose, and what came of sending it. */
function useCall(site: ReadSite, onSent: (sent: Reported) => void) {
  const service = useService();
  const name = `call ${site.id}`;
  const [draft, setDraft] = useState(() => kept.read<CallDraft>(name) ?? EMPTY_CALL);
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const change = (changed: CallDraft) => {
    kept.write(name, changed);
    setDraft(changed);
  };
  const sendIt = () => {
    const missing = findMissing(draft);
    setLacking(missing);
    if (missing !== undefined) return;
    send(async () => {
      const path = `/sites/${site.id}/reports`;
      const content = toReporting(draft);
      const body = { id: repeatId(kept, path, content, uuidv7), ...content };
      const sent = await service.send<Reported>('POST', path, { body });
      forgetId(kept, path);
      kept.write(name, undefined);
      onSent(sent);
    });
  };
  return { draft, change, wrong: lacking ?? failure, isSending, send: sendIt };
}

function findMissing({ tried, said, caller }: CallDraft): Failure | undefined {
  const errors = [
    ...(tried === undefined ? [{ field: '/tried', reason: CALL_WORDS.noTried }] : []),
    ...(said.length === 0 ? [{ field: '/observations', reason: CALL_WORDS.noRooms }] : []),
    ...(caller.trim() === '' ? [{ field: '/saidBy', reason: CALL_WORDS.noCaller }] : []),
  ];
  const [first] = errors;
  return first === undefined ? undefined : new Failure(422, first.reason, errors);
}
