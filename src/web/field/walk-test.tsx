import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { PAGE_WORDS } from '../parts/language.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useEntering } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import { nameNodesIn } from './kit-node-field.js';
import { withoutTakenBack } from './mended-here.js';
import type { OutboxEntry } from './outbox.js';
import { isSamePoint, type PointToTry, roomsToTry, type TriedPoint } from './rooms-to-try.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField, useUntold } from './use-field.js';

const OUTCOMES = ['works', 'weak', 'fails'] as const;

/** Room by room with the phone in one hand: each touch is kept by itself, and the next room is there. */
export function WalkTest({ kept, subject, home, visit }: FieldTicketProps) {
  const { person } = useField();
  const { enter, failure } = useEntering(subject);
  const { route } = useLocation();
  const entries = useUntold(kept);
  const points = roomsToTry(kept.value, entries);
  const [skipped, setSkipped] = useState<readonly string[]>([]);
  const nameOf = nameNodesIn(kept.value.kit);
  const left = points.filter(
    (one) =>
      one.outcome === undefined && !skipped.includes(JSON.stringify([one.node, one.function])),
  );
  const last = lastTried(kept.value.ticket.id, entries);
  const [isAgain, setAgain] = useState(false);
  const point =
    (isAgain ? points.find((one) => last && isSamePoint(one, last)) : undefined) ?? left[0];
  const failing = points.filter(({ outcome }) => outcome !== undefined && outcome !== 'works');
  const tried = points.filter(({ outcome }) => outcome !== undefined).length;
  const saidBy = { name: person.name, kind: 'technician' };
  const at = `/tickets/${kept.value.ticket.id}`;
  const say = ({ trunk, node, function: name }: TriedPoint, outcome: (typeof OUTCOMES)[number]) => {
    const body = { saidBy, observations: [{ trunk, node, function: name, outcome }] };
    const { tried: what, [outcome]: heard } = PAGE_WORDS.functions[name];
    const words = FIELD_WORDS.heardWords(nameOf(trunk, node), what, heard);
    setAgain(false);
    enter([{ path: `${at}/walk-tests`, body, words }]);
  };
  const close = () =>
    enter(
      [{ path: `${at}/moves`, body: { saidBy, to: 'closed' }, words: FIELD_WORDS.closed }],
      () => route(visit === undefined ? '/field' : `/field/visits/${visit.id}`),
    );
  return (
    <section class="next-step">
      <p>{FIELD_WORDS.tried(tried, points.length)}</p>
      {failure !== undefined && <p class="error">{failure}</p>}
      {point !== undefined ? (
        <OneRoom
          key={JSON.stringify([point.node, point.function])}
          room={nameOf(point.trunk, point.node)}
          point={point}
          onSay={(outcome) => say(point, outcome)}
          onSkip={() => setSkipped([...skipped, JSON.stringify([point.node, point.function])])}
        />
      ) : (
        <Tried isWell={failing.length === 0} onClose={close} home={home} />
      )}
      {last !== undefined && !isAgain && (
        <p>
          <button type="button" onClick={() => setAgain(true)}>
            {FIELD_WORDS.onceMoreRoom(nameOf(last.trunk, last.node))}
          </button>
        </p>
      )}
      <StillFailing failing={failing} nameOf={nameOf} />
    </section>
  );
}

interface StillFailingProps {
  failing: readonly TriedPoint[];
  nameOf: ReturnType<typeof nameNodesIn>;
}

function StillFailing({ failing, nameOf }: StillFailingProps) {
  if (failing.length === 0) return null;
  return (
    <ul>
      {failing.map((one) => (
        <li key={JSON.stringify(one)}>
          {FIELD_WORDS.heardWords(
            nameOf(one.trunk, one.node),
            PAGE_WORDS.functions[one.function].tried,
            PAGE_WORDS.functions[one.function][one.outcome === 'weak' ? 'weak' : 'fails'],
          )}
        </li>
      ))}
    </ul>
  );
}

/** What was touched last, which may have been the wrong button; the last word of a room counts. */
function lastTried(ticketId: string, entries: readonly OutboxEntry[]): PointToTry | undefined {
  const own = withoutTakenBack(entries).filter(({ subject }) => subject.ticketId === ticketId);
  const mended = own.map(({ path }) => path.endsWith('/mendings')).lastIndexOf(true);
  const last = own
    .slice(mended + 1)
    .filter(({ path }) => path.endsWith('/walk-tests'))
    .at(-1);
  return (last?.body['observations'] as PointToTry[] | undefined)?.[0];
}

interface OneRoomProps {
  room: string;
  point: TriedPoint;
  onSay: (outcome: (typeof OUTCOMES)[number]) => void;
  onSkip: () => void;
}

function OneRoom({ room, point, onSay, onSkip }: OneRoomProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const words = PAGE_WORDS.functions[point.function];
  return (
    <>
      <h1 class="next-words" tabIndex={-1} ref={heading}>
        {room}
      </h1>
      <p>{words.tried}</p>
      <div class="endings">
        {OUTCOMES.map((outcome) => (
          <button key={outcome} type="button" class="ending" onClick={() => onSay(outcome)}>
            {words[outcome]}
          </button>
        ))}
      </div>
      <p>
        <button type="button" onClick={onSkip}>
          {FIELD_WORDS.skip}
        </button>
      </p>
    </>
  );
}

function Tried({ isWell, onClose, home }: { isWell: boolean; onClose: () => void; home: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <>
      <h1 class="next-words" tabIndex={-1} ref={heading}>
        {isWell ? FIELD_WORDS.allTried : FIELD_WORDS.someFail}
      </h1>
      {isWell ? (
        <button type="button" class="main" onClick={onClose}>
          {FIELD_WORDS.close}
        </button>
      ) : (
        <a class="button wide" href={home}>
          {FIELD_WORDS.goOn}
        </a>
      )}
    </>
  );
}
