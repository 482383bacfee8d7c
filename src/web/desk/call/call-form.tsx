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
import { useDraft } from '../use-draft.js';
import { CALL_WORDS } from '../words/words.js';

/** What is typed, in the order in which somebody on the telephone says it. */
const LINES = [
  { name: 'caller', field: '/saidBy', label: CALL_WORDS.caller, maxLength: 200 },
  { name: 'callBack', field: '/callBackPhone', label: CALL_WORDS.callBack, maxLength: 40 },
  { name: 'whyUrgent', field: '/urgentReason', label: CALL_WORDS.whyUrgent, maxLength: 200 },
  { name: 'remark', field: '/note', label: CALL_WORDS.remark, maxLength: 5000 },
] as const;

interface CallFormProps {
  site: ReadSite;
  record: ReadDrawnRecord;
  onSent: (sent: Reported) => void;
}

const kept = keepIn(() => sessionStorage);

export function CallForm({ site, record, onSent }: CallFormProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const isDrawn = record.trunks.length > 0;
  const { draft, change, wrong, isSending, send } = useCall(site, isDrawn, onSent);
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
      {isDrawn && (
        <TriedField
          legend={CALL_WORDS.tried}
          value={draft.tried}
          onValue={(tried) => change({ ...draft, tried })}
          error={wrong?.sentenceFor('/tried')}
        />
      )}
      <CallRooms record={record} draft={draft} onDraft={change} />
      <div class="narrow">
        {LINES.map(({ name, field, label, maxLength }) => (
          <TextField
            key={name}
            label={isDrawn || name !== 'remark' ? label : CALL_WORDS.inWords}
            autocomplete="off"
            maxLength={maxLength}
            value={draft[name]}
            onValue={(typed) => change({ ...draft, [name]: typed })}
            error={wrong?.sentenceFor(field)}
          />
        ))}
        <FailureLine failure={wrong} fields={['/tried', ...LINES.map(({ field }) => field)]} />
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
function useCall(site: ReadSite, isDrawn: boolean, onSent: (sent: Reported) => void) {
  const service = useService();
  const { draft, give, settle } = useDraft(`call ${site.id}`, EMPTY_CALL);
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const sendIt = () => {
    const missing = findMissing(draft, isDrawn);
    setLacking(missing);
    if (missing !== undefined) return;
    send(async () => {
      const path = `/sites/${site.id}/reports`;
      const content = toReporting(draft);
      const body = { id: repeatId(kept, path, content, uuidv7), ...content };
      const sent = await service.send<Reported>('POST', path, { body });
      forgetId(kept, path);
      settle();
      onSent(sent);
    });
  };
  return { draft, change: give, wrong: lacking ?? failure, isSending, send: sendIt };
}

function findMissing(
  { tried, said, caller, remark }: CallDraft,
  isDrawn: boolean,
): Failure | undefined {
  const isLacking = (isSo: boolean) => isDrawn && isSo;
  const errors = [
    ...(isLacking(tried === undefined) ? [{ field: '/tried', reason: CALL_WORDS.noTried }] : []),
    ...(isLacking(said.length === 0)
      ? [{ field: '/observations', reason: CALL_WORDS.noRooms }]
      : []),
    ...(!isDrawn && remark.trim() === '' ? [{ field: '/note', reason: CALL_WORDS.noWords }] : []),
    ...(caller.trim() === '' ? [{ field: '/saidBy', reason: CALL_WORDS.noCaller }] : []),
  ];
  const [first] = errors;
  return first === undefined ? undefined : new Failure(422, first.reason, errors);
}
