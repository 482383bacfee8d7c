import { useMemo, useState } from 'preact/hooks';
import { type DrawnChances, lastSaid } from '../../parts/drawing/drawn-facts.js';
import { type NodeAt, TrunkDrawing } from '../../parts/drawing/trunk-drawing.js';
import { atSite, since } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import type { ReadVisit } from '../../parts/wire.js';
import { asHeadline, stateInWords } from '../desk-words.js';
import { NodePanel } from './node-panel.js';
import { namesOn } from './cause-of.js';
import { broughtInWords } from './learned.js';
import { CauseList } from './cause-list.js';
import { DrawingDoubts } from './drawing-doubts.js';
import { EnterLearned } from './enter-learned.js';
import { NewerRecord } from './newer-record.js';
import { LearnedList } from './learned-list.js';
import { PromisePanel } from './promise-panel.js';
import { TicketPeople } from './ticket-people.js';
import { TicketPhotos } from './ticket-photos.js';
import { TicketTogether } from './ticket-together.js';
import type { TicketRead } from './ticket-page.js';
import { isOfClock, logLines } from './log-lines.js';
import { clockNewsInWords, entryInWords } from './ticket-words.js';
import { useSuppose } from './use-suppose.js';
import { SupposedBox } from './supposed-box.js';
import { DESK_WORDS, TICKET_WORDS } from '../words/words.js';

export interface TicketViewProps extends TicketRead {
  onChanged: () => void;
}

/** Where it is, why, who does what about it. */
export function TicketView(props: TicketViewProps) {
  const { ticket, record, location, kit, told } = props;
  const [chosen, setChosen] = useState<NodeAt>();
  const [marked, setMarked] = useState<NodeAt[]>([]);
  const suppose = useSuppose(kit, told);
  const said = useMemo(() => lastSaid(told), [told]);
  const chances: DrawnChances | undefined = suppose.result ?? location?.result;
  return (
    <article class="ticket">
      <TicketHead {...props} />
      <Caller {...props} />
      <p class="first-place">{asHeadline(firstPlace(location))}</p>
      {location !== undefined && !isOver(ticket) && <p>{location.first.words}</p>}
      <NoticesOfTold location={location} />
      <div class={chosen === undefined ? undefined : 'beside'}>
        <TrunkDrawing
          cables={record.trunks}
          said={suppose.supposed.length === 0 ? said : suppose.said}
          chances={chances}
          changed={[...suppose.supposed, ...marked]}
          doubted={location?.contradictions ?? []}
          chosen={chosen}
          onChoose={setChosen}
          {...(kit !== undefined && { onLetter: suppose.set })}
        />
        {chosen !== undefined && (
          <NodePanel
            {...props}
            at={chosen}
            chances={chances}
            suppose={suppose}
            onClose={() => setChosen(undefined)}
          />
        )}
      </div>
      <SupposedBox {...props} suppose={suppose} />
      <NewerRecord {...props} />
      <DrawingDoubts {...props} />
      <div class="ticket-parts">
        <div>
          <CauseList {...props} />
          <TicketPeople {...props} />
          <PromisePanel {...props} />
          <TicketPhotos ticketId={ticket.id} log={props.log} />
          <TicketTogether {...props} onMarked={setMarked} />
        </div>
        <div>
          <ChecksList {...props} />
          <LearnedList {...props} />
          <EnterLearned {...props} />
        </div>
      </div>
      <TicketLog {...props} />
    </article>
  );
}

const GOING: readonly ReadVisit['state'][] = ['planned', 'under-way'];

/** Of what is over nobody is told what to do first. */
function isOver({ state }: TicketViewProps['ticket']): boolean {
  return state === 'closed' || state === 'merged';
}

function TicketHead({ ticket, site, visits }: Pick<TicketViewProps, 'ticket' | 'site' | 'visits'>) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <header class="line-up">
      <h1 tabIndex={-1} ref={heading}>
        {site.name} <span class="now-number">{ticket.number}</span>
      </h1>
      <p>
        {TICKET_WORDS.since(
          atSite(ticket.openedAt, site.zone),
          since(ticket.openedAt, new Date()),
          ticket.openedBy,
          stateInWords(
            ticket.state,
            visits.some((visit) => GOING.includes(visit.state)),
          ),
        )}
      </p>
    </header>
  );
}

/** Why it cannot wait, and on which number whoever said so last can be called back. */
function Caller({ ticket, log }: Pick<TicketViewProps, 'ticket' | 'log'>) {
  const { urgentReason } = ticket;
  const caller = log.findLast(({ details }) => details.callBackPhone != null);
  const phone = caller?.details.callBackPhone;
  return (
    <>
      {urgentReason !== null && <p class="notice">{DESK_WORDS.urgent(urgentReason)}</p>}
      {caller !== undefined && phone != null && (
        <p>
          {TICKET_WORDS.callBack(caller.saidBy)}{' '}
          <a href={`tel:${phone.replaceAll(' ', '')}`}>{phone}</a>
        </p>
      )}
    </>
  );
}

/** What of that which was told does not go together, and who says what. */
function NoticesOfTold({ location }: Pick<TicketViewProps, 'location'>) {
  return (
    <>
      {location?.surprise?.drawingMayBeWrong && <p class="notice">{TICKET_WORDS.drawingDoubt}</p>}
      {location?.contradictions.map(({ words }) => (
        <p key={words} class="notice">
          {asHeadline(words)}
        </p>
      ))}
    </>
  );
}

/** A stretch that nothing tells apart is one place, where it is the likelier one. */
function firstPlace(location: TicketViewProps['location']): string {
  const [place] = location?.places ?? [];
  const [stretch] = location?.stretches ?? [];
  if (stretch !== undefined && stretch.probability > (place?.probability ?? 0))
    return stretch.words;
  return place?.words ?? TICKET_WORDS.refused;
}

function ChecksList({ location, kit, site }: TicketViewProps) {
  const notes = site.safetyNotes === null ? [] : [site.safetyNotes];
  if (location === undefined) return <Cautions cautions={kit?.cautions ?? notes} />;
  const lists = [
    { title: TICKET_WORDS.byOffice, checks: location.officeChecks },
    { title: TICKET_WORDS.byTechnician, checks: location.technicianChecks.slice(0, 4) },
  ].filter(({ checks }) => checks.length > 0);
  return (
    <section>
      {lists.length > 0 && <h2>{TICKET_WORDS.checks}</h2>}
      {lists.map(({ title, checks }) => (
        <div key={title}>
          <h3>{title}</h3>
          <ul class="plain">
            {checks.map(({ words, minutes }) => (
              <li key={words}>
                {words} <span class="soft">{TICKET_WORDS.minutes(minutes)}</span>
              </li>
            ))}
          </ul>
        </div>
      ))}
      <Cautions cautions={kit?.cautions ?? notes} />
    </section>
  );
}

/** Whoever is sent from here is told what can hurt them there. */
function Cautions({ cautions }: { cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <div>
      <h3>{TICKET_WORDS.cautions}</h3>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </div>
  );
}

type LoggedProps = Pick<TicketViewProps, 'log' | 'site' | 'record' | 'clock'>;

function TicketLog({ log, site, record, clock }: LoggedProps) {
  const nameOf = namesOn(record.trunks);
  return (
    <section>
      <h2>{TICKET_WORDS.log}</h2>
      <ol class="log">
        {logLines(log).map((line) => {
          const [entry] = line;
          return (
            <li key={entry.id}>
              <time dateTime={entry.happenedAt}>{atSite(entry.happenedAt, site.zone)}</time>
              <span>
                {isOfClock(entry)
                  ? clockNewsInWords(line.filter(isOfClock), clock)
                  : entryInWords(entry, broughtInWords(entry, nameOf), nameOf)}
              </span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
