import { useLocation } from 'preact-iso';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { WalkAnswer, WalkEnding, WalkStep } from '#app/walks/plan-ticket-walk.js';
import { today } from '../parts/local-day.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { CautionList } from './cautions.js';
import { foundAddress, useEntering } from './entering.js';
import { endingInWords, entriesOf } from './entries-of.js';
import { FIELD_WORDS } from './field-words.js';
import type { ToEnter } from './outbox-keeper.js';
import type { Planned } from './plan-thread.js';
import type { FieldTicketProps } from './ticket-page.js';
import { TrunkStrips } from './trunk-strips.js';
import { useField } from './use-field.js';
import { standAt, usePlan } from './use-plan.js';

/** The next thing to do, as big as the screen, and one touch for what came of it. */
export function StepView(props: FieldTicketProps) {
  const { kept, home, subject } = props;
  const { kit } = kept.value;
  const { entries, person } = useField();
  const { enter, failure } = useEntering(subject);
  const { planned, suspected } = usePlan(kept, entries, person.name);
  // After a touch: what the plan before had next in that case. Else the plan before stays until there is a new one.
  const [meanwhile, setMeanwhile] = useState<WalkStep | null>();
  const before = useRef<WalkStep | null>(null);
  const { query, route } = useLocation();
  const plan = planned !== undefined && 'plan' in planned ? planned.plan : undefined;
  const next = plan?.next ?? null;
  const step =
    planned === undefined ? (meanwhile === undefined ? before.current : meanwhile) : next;
  useEffect(() => {
    if (planned === undefined) return;
    before.current = next;
    setMeanwhile(undefined);
  }, [planned, next]);
  const end = ({ words, where }: WalkStep, ending: WalkEnding) => {
    const ticketId = kept.value.ticket.id;
    const found = ending.records.find((record) => record.kind === 'finding');
    standAt(ticketId, where);
    if (found !== undefined) {
      route(foundAddress(home, JSON.stringify(found), query['instead']));
      return;
    }
    const said = endingInWords(words, ending.seen);
    const entered = entriesOf(ending.records, said, { ticketId, name: person.name });
    enter(entered, () => setMeanwhile(ending.next));
  };
  return (
    <>
      <Begin {...props} />
      {failure !== undefined && (
        <p class="error" role="alert">
          {failure}
        </p>
      )}
      {step === null ? (
        <NoStep planned={planned} />
      ) : (
        <OneStep
          key={step.words}
          step={step}
          isSettled={planned !== undefined}
          onEnd={(ending) => end(step, ending)}
        />
      )}
      <p class="others">
        <a class="button wide" href={`${home}/else`}>
          {FIELD_WORDS.somethingElse}
        </a>
      </p>
      {/* Below what is touched: it comes later, and moves no button. */}
      {suspected !== undefined && <TrunkStrips {...{ kit, suspected }} where={step?.where} />}
      <StepFoot parts={plan?.parts ?? []} cautions={kit.cautions} />
    </>
  );
}

interface StepFootProps {
  parts: WalkAnswer['parts'];
  cautions: readonly string[];
}

function StepFoot({ parts, cautions }: StepFootProps) {
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
        <CautionList cautions={cautions} />
      </details>
    </>
  );
}

function NoStep({ planned }: { planned: Planned | undefined }) {
  return <h1 class="next-words">{whyNoStep(planned)}</h1>;
}

function whyNoStep(planned: Planned | undefined): string {
  if (planned === undefined) return FIELD_WORDS.working;
  return 'plan' in planned ? FIELD_WORDS.nothingSuspect : FIELD_WORDS.noPlan[planned.refused];
}

interface OneStepProps {
  step: WalkStep;
  /** It is of the newest plan. */
  isSettled: boolean;
  onEnd: (ending: WalkEnding) => void;
}

function OneStep({ step, isSettled, onEnd }: OneStepProps) {
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
      {!isSettled && <p role="status">{FIELD_WORDS.workingOn}</p>}
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
function Begin({ kept, visit, subject }: FieldTicketProps) {
  const { person, entries } = useField();
  const { enter, failure } = useEntering(subject);
  const { ticket } = kept.value;
  const said = entries.filter(({ subject: other }) => other.ticketId === ticket.id);
  const isSaid = said.some(({ path }) => path.endsWith('/moves'));
  const moves: ToEnter[] = [];
  const words = FIELD_WORDS.begun;
  if (visit?.state === 'planned')
    moves.push({
      path: `/visits/${visit.id}/moves`,
      body: { to: 'under-way', by: person.name },
      words,
    });
  if (ticket.state === 'reported' || ticket.state === 'to-visit')
    moves.push({
      path: `/tickets/${ticket.id}/moves`,
      body: {
        to: 'at-work',
        saidBy: { name: person.name, kind: 'technician' },
        reason: FIELD_WORDS.begunReason,
      },
      words,
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

/** A visit of one's own to the ticket, now: it is meant so, whatever the hour. */
function callOut({ ticket }: FieldTicketProps['kept']['value'], technicianId: string): ToEnter {
  const meant = { confirmed: ['double-booked', 'outside-hours'] };
  const what = {
    kind: 'call-out',
    on: today(),
    purpose: FIELD_WORDS.taken,
    ticketIds: [ticket.id],
  };
  const body = { siteId: ticket.siteId, technicianId, ...what, ...meant };
  return { path: '/visits', body, words: FIELD_WORDS.taken };
}
