import { useLocation } from 'preact-iso';
import type { WalkAnswer, WalkEnding, WalkStep } from '#app/walks/plan-ticket-walk.js';
import { PAGE_WORDS } from '../parts/language.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { ReadKit } from '../parts/wire.js';
import { agoInWords } from './ages.js';
import { CautionList } from './cautions.js';
import { DrawingFirst } from './drawing-first.js';
import { foundAddress, useEntering } from './entering.js';
import { endingInWords, entriesOf, type HeardRecord } from './entries-of.js';
import { FIELD_WORDS } from './field-words.js';
import { nameNodesIn } from './kit-node-field.js';
import { isToBeProven } from './mended-here.js';
import type { ToEnter } from './outbox-keeper.js';
import type { Planned } from './plan-thread.js';
import type { AnyKeptTicket, FieldTicketProps } from './ticket-page.js';
import { type ToldSoFar, toldSoFar } from './told-so-far.js';
import { TrunkStrips } from './trunk-strips.js';
import { nextOf } from './step-shown.js';
import { useField, useUntold } from './use-field.js';
import { callOut } from './take-form.js';
import { standAt, usePlan } from './use-plan.js';
import { useStepShown } from './use-step-shown.js';

/** The next thing to do, as big as the screen, and one touch for what came of it. */
export function StepView(props: FieldTicketProps) {
  const { kept, home, subject } = props;
  const { kit } = kept.value;
  const { person } = useField();
  const entries = useUntold(kept);
  const { enter, failure } = useEntering(subject);
  const { planned, suspected } = usePlan(kept, entries, person.name);
  const shown = useStepShown(planned, failure !== undefined);
  const { step, newer } = shown;
  const { query, route } = useLocation();
  const plan = planned !== undefined && 'plan' in planned ? planned.plan : undefined;
  const end = ({ words, where }: WalkStep, ending: WalkEnding) => {
    const ticketId = kept.value.ticket.id;
    const found = ending.records.find((record) => record.kind === 'finding');
    standAt(ticketId, where);
    if (found !== undefined) {
      route(foundAddress(home, JSON.stringify(found), query['instead']));
      return;
    }
    const said = endingInWords(words, ending.seen);
    const entering = { ticketId, name: person.name, heardInWords: heardInWordsOn(kit) };
    const entered = entriesOf(ending.records, said, entering);
    // Before it is kept: what comes then may be planned already.
    if (entered.length > 0) shown.end(ending.next);
    enter(entered);
  };
  return (
    <>
      <Begin {...props} />
      <ToProve {...props} />
      {failure !== undefined && (
        <p class="error" role="alert">
          {failure}
        </p>
      )}
      {step === null ? (
        <NoStep planned={planned} />
      ) : (
        <OneStep key={step.words} step={step} onEnd={(ending) => end(step, ending)} />
      )}
      {/* Below what is touched, as all that comes by itself: it moves no button. */}
      <div class="since" role="status">
        {step !== null && planned === undefined && <p>{FIELD_WORDS.workingOn}</p>}
        {newer !== undefined && <Newer planned={newer} onTake={shown.take} />}
      </div>
      <p class="others">
        <a class="button wide" href={`${home}/else`}>
          {FIELD_WORDS.somethingElse}
        </a>
      </p>
      {suspected !== undefined && <DrawingFirst {...{ kept, subject, home, suspected }} />}
      {suspected !== undefined && <TrunkStrips {...{ kit, suspected }} where={step?.where} />}
      <StepFoot parts={plan?.parts ?? []} kept={kept} />
    </>
  );
}

/** Whoever comes back to a ticket that was mended is shown the way to the rooms, before a plan that is from before. */
function ToProve({ kept, home }: FieldTicketProps) {
  if (!isToBeProven(kept.value.ticket, useUntold(kept))) return null;
  return (
    <p>
      <a class="button wide" href={`${home}/walk-test`}>
        {FIELD_WORDS.mendedNow}
      </a>
    </p>
  );
}

/** Beside a look, which tells what was done. */
function heardInWordsOn(kit: ReadKit) {
  const nameOf = nameNodesIn(kit);
  return (heard: readonly HeardRecord[]) =>
    heard
      .map(({ trunk, node, function: name, outcome }) => {
        const { tried, [outcome]: sounded } = PAGE_WORDS.functions[name];
        return FIELD_WORDS.heardWords(nameOf(trunk, node), tried, sounded);
      })
      .join('. ');
}

interface StepFootProps {
  parts: WalkAnswer['parts'];
  kept: FieldTicketProps['kept'];
}

function StepFoot({ parts, kept }: StepFootProps) {
  const { kit, ticket } = kept.value;
  const carried = parts.filter(({ isCarried }) => isCarried);
  return (
    <>
      {carried.length > 0 && (
        <details>
          <summary>{FIELD_WORDS.toCarry}</summary>
          <ul>
            {carried.map(({ id }) => (
              <li key={id}>{id}</li>
            ))}
          </ul>
        </details>
      )}
      <details>
        <summary>{FIELD_WORDS.cautions}</summary>
        <CautionList cautions={kit.cautions} />
      </details>
      <Told told={toldSoFar(kit, ticket.id, useUntold(kept))} />
    </>
  );
}

/** As much as somebody on a ladder looks through; all of it is on the desk. */
const MOST_TOLD = 30;

/** What whoever is or was at it said: on this phone, on another, in the office. */
function Told({ told }: { told: readonly ToldSoFar[] }) {
  return (
    <details>
      <summary>{FIELD_WORDS.toldSoFar(told.length)}</summary>
      <ToldList told={told} />
    </details>
  );
}

export function ToldList({ told }: { told: readonly ToldSoFar[] }) {
  return (
    <ul>
      {told.slice(0, MOST_TOLD).map(({ at, by, words, waits }) => (
        <li key={`${at} ${words}`}>
          {words}{' '}
          <span class="soft">
            {by}, {agoInWords(at)}
            {waits && `. ${FIELD_WORDS.waits}`}
          </span>
        </li>
      ))}
    </ul>
  );
}

function NoStep({ planned }: { planned: Planned | undefined }) {
  return <h1 class="next-words">{whyNoStep(planned)}</h1>;
}

/** Something was learned since: what is to be done now, once whoever is there wants it. */
function Newer({ planned, onTake }: { planned: Planned; onTake: () => void }) {
  const words = nextOf(planned)?.words ?? whyNoStep(planned);
  return (
    <div class="notice">
      <p>{FIELD_WORDS.newerStep(words)}</p>
      <button type="button" onClick={onTake}>
        {FIELD_WORDS.takeNewer}
      </button>
    </div>
  );
}

function whyNoStep(planned: Planned | undefined): string {
  if (planned === undefined) return FIELD_WORDS.working;
  return 'plan' in planned ? FIELD_WORDS.nothingSuspect : FIELD_WORDS.noPlan[planned.refused];
}

interface OneStepProps {
  step: WalkStep;
  onEnd: (ending: WalkEnding) => void;
}

function OneStep({ step, onEnd }: OneStepProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { words, where, minutes, endings } = step;
  return (
    <section class="next-step">
      <h1 class="next-words" tabIndex={-1} ref={heading}>
        {words}
      </h1>
      <p>
        {FIELD_WORDS.at(where.words)}, {FIELD_WORDS.minutes(minutes)}
      </p>
      <div class="endings">
        {asButtons(endings).map((ending) => (
          <button key={ending.seen} type="button" class="ending" onClick={() => onEnd(ending)}>
            {FIELD_WORDS.asButton(ending.seen)}
          </button>
        ))}
      </div>
    </section>
  );
}

/** What is at fault is mended, whatever fails besides: one button. */
function asButtons(endings: readonly WalkEnding[]): WalkEnding[] {
  return [
    ...new Map([...endings].reverse().map((one) => [JSON.stringify(one.records), one])).values(),
  ].reverse();
}

/** Who comes says so: the visit and the ticket are under way from then on. */
export function Begin({ kept, visit, subject }: FieldTicketProps<AnyKeptTicket>) {
  const { person } = useField();
  const entries = useUntold(kept);
  const { enter, failure } = useEntering(subject);
  const { ticket } = kept.value;
  const said = entries.filter(({ subject: other }) => other.ticketId === ticket.id);
  const isSaid = said.some(({ path }) => path.endsWith('/moves'));
  const moves: ToEnter[] = [];
  if (visit?.state === 'planned')
    moves.push({
      path: `/visits/${visit.id}/moves`,
      body: { to: 'under-way', by: person.name },
      words: FIELD_WORDS.begun,
    });
  if (ticket.state === 'reported' || ticket.state === 'to-visit')
    moves.push({
      path: `/tickets/${ticket.id}/moves`,
      body: {
        to: 'at-work',
        saidBy: { name: person.name, kind: 'technician' },
        reason: FIELD_WORDS.begunReason,
      },
      // Of two that wait one tells of the visit, and the other of the ticket.
      words: FIELD_WORDS.begunReason,
    });
  const isTaken = visit !== undefined || said.some(({ path }) => path === '/visits');
  const canTake = !isTaken && person.role === 'technician';
  const canBegin = !isSaid && moves.length > 0;
  if (!canTake && !canBegin) return null;
  return (
    <p class="buttons">
      {canTake && (
        <button type="button" onClick={() => enter([callOut(kept.value, person.id)])}>
          {FIELD_WORDS.take}
        </button>
      )}
      {canBegin && (
        <button type="button" onClick={() => enter(moves)}>
          {FIELD_WORDS.begin}
        </button>
      )}
      {failure !== undefined && <span class="error">{failure}</span>}
    </p>
  );
}
