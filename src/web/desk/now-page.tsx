import { useLayoutEffect, useRef } from 'preact/hooks';
import { Loaded } from '../parts/states.js';
import { useService } from '../parts/service-context.js';
import { shortDay, since } from '../parts/time-words.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useRead } from '../parts/use-read.js';
import type { Desk, DeskTicket } from '../parts/wire.js';
import { TrunkStrip } from '../parts/drawing/strip.js';
import { asHeadline, stateInWords, timeLeft, whoGoes } from './desk-words.js';
import { useTone } from './use-tone.js';
import { useLive } from './use-live.js';
import { DESK_WORDS, MAP_WORDS } from './words/words.js';

/** What is silent now, the one that waits longest first. */
export function NowPage() {
  const service = useService();
  // What was open when the page was opened is no news.
  const known = useRef<number>(undefined);
  const read = useRead('/desk', async () => {
    const after = known.current === undefined ? '' : `?after=${known.current}`;
    const desk = await service.read<Desk>(`/desk${after}`);
    known.current ??= desk.newest;
    return { desk, known: known.current };
  });
  useLive(read.again);
  return <Loaded read={read}>{(now) => <NowList {...now} />}</Loaded>;
}

interface NowListProps {
  desk: Desk;
  /** The highest number when the page was opened. */
  known: number;
}

function NowList({ desk, known }: NowListProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { newer } = desk;
  const tone = useTone(newer);
  const now = new Date(desk.readAt);
  // With what is shown: whoever reads that there is something new has it in the title too.
  useLayoutEffect(() => {
    const count = newer > 0 ? `(${DESK_WORDS.newReports(newer)}) ` : '';
    document.title = `${count}${DESK_WORDS.silentNow}`;
  }, [newer]);
  return (
    <section>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {DESK_WORDS.silentNow}
        </h1>
        <p>{DESK_WORDS.tickets(desk.items.length + desk.more)}</p>
        <a class="no-print" href="/desk/map">
          {MAP_WORDS.toMap}
        </a>
        <button type="button" class="small no-print" aria-pressed={tone.isOn} onClick={tone.toggle}>
          {DESK_WORDS.soundOff}
        </button>
      </div>
      <p role="status" class={newer > 0 ? 'fresh' : 'unseen'}>
        {newer > 0 && DESK_WORDS.newReports(newer)}
      </p>
      {desk.more > 0 && <p>{DESK_WORDS.moreThanShown(desk.more)}</p>}
      {desk.items.length === 0 ? (
        <p class="empty">
          {DESK_WORDS.nothingSilent} {DESK_WORDS.nothingSilentMore}
        </p>
      ) : (
        <ol class="now">
          {desk.items.map((ticket) => (
            <NowRow key={ticket.id} ticket={ticket} now={now} isFresh={ticket.number > known} />
          ))}
        </ol>
      )}
    </section>
  );
}

interface NowRowProps {
  ticket: DeskTicket;
  now: Date;
  isFresh: boolean;
}

function NowRow({ ticket, now, isFresh }: NowRowProps) {
  const {
    number,
    site,
    likeliest,
    strips,
    going,
    openedAt,
    openedBy,
    silentRooms,
    state,
    nextPromise,
    urgentReason,
  } = ticket;
  return (
    <li class={isFresh ? 'now-row is-fresh' : 'now-row'}>
      <p class="now-since">
        {nextPromise === null ? since(openedAt, now) : timeLeft(nextPromise, now)}
        <span>
          {nextPromise === null
            ? DESK_WORDS.rooms(silentRooms)
            : DESK_WORDS.promises[nextPromise.promise]}
        </span>
        {nextPromise !== null && (
          <span>{DESK_WORDS.roomsSince(DESK_WORDS.rooms(silentRooms), since(openedAt, now))}</span>
        )}
      </p>
      <div class="now-what">
        <h2>
          <a href={`/desk/tickets/${number}`}>{site.name}</a>{' '}
          <span class="now-number">{number}</span>
        </h2>
        <p class="now-place">{asHeadline(likeliest?.words ?? DESK_WORDS.notWorkedOut)}</p>
        {strips.map((strip) => (
          <TrunkStrip key={strip.trunk} {...strip} />
        ))}
        {urgentReason !== null && <p class="strong">{DESK_WORDS.urgent(urgentReason)}</p>}
        {site.servesEmergencyCalls && <p class="now-emergency">{DESK_WORDS.emergency}</p>}
      </div>
      <div class="now-who">
        <p class={going === null ? 'strong' : undefined}>{whoGoes(going, shortDay)}</p>
        <p>{stateInWords(state, going !== null)}</p>
        <p>{DESK_WORDS.toldBy(openedBy)}</p>
      </div>
    </li>
  );
}
