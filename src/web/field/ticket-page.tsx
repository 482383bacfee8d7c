import { useEffect, useMemo, useState } from 'preact/hooks';
import { PAGE_WORDS } from '../parts/language.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { ReadVisit } from '../parts/wire.js';
import { readInWords } from './ages.js';
import { CablesForm } from './cables-form.js';
import { Cautions, haveBeenRead } from './cautions.js';
import { ElseMenu } from './else-menu.js';
import { CloseInWords } from './close-in-words.js';
import { FIELD_WORDS } from './field-words.js';
import type { KeptRead } from './field-database.js';
import { FoundForm } from './found-form.js';
import { HeardForm } from './heard-form.js';
import { InWordsView, MendedInWords } from './in-words.js';
import type { KeptInWords, KeptTicket } from './kept-work.js';
import { LookForm } from './look-form.js';
import { NoteForm } from './note-form.js';
import { PhotoForm } from './photo-form.js';
import type { EntrySubject } from './outbox.js';
import { ReadingForm } from './reading-form.js';
import { StepView } from './step-view.js';
import { TakeBackForm } from './take-back-form.js';
import { TakeForm } from './take-form.js';
import { useClosedHere } from './use-closed-here.js';
import { useField, useKeptTicket } from './use-field.js';
import { WalkTest } from './walk-test.js';

/** With a drawing to work on, or without. */
export type AnyKeptTicket = KeptTicket | KeptInWords;

/** What each view of a ticket is given. */
export interface FieldTicketProps<Kept extends AnyKeptTicket = KeptTicket> {
  kept: KeptRead<Kept>;
  subject: EntrySubject;
  /** Of this person to this ticket; undefined where nothing is planned. */
  visit: ReadVisit | undefined;
  /** The ticket’s address. */
  home: string;
}

const VIEWS = {
  else: ElseMenu,
  room: HeardForm,
  part: LookForm,
  reading: ReadingForm,
  cables: CablesForm,
  found: FoundForm,
  note: NoteForm,
  photo: PhotoForm,
  'walk-test': WalkTest,
  take: TakeForm,
  'take-back': TakeBackForm,
} as const;

/** Of a site that nobody has drawn. */
const VIEWS_IN_WORDS = {
  found: MendedInWords,
  close: CloseInWords,
  note: NoteForm,
  photo: PhotoForm,
  take: TakeForm,
} as const;

const OLDER_MS = 120_000;

interface TicketPageProps {
  number?: string;
  what?: string;
}

export function FieldTicketPage({ number, what }: TicketPageProps) {
  const { work } = useField();
  const listed = work?.value.tickets.find((one) => String(one.number) === number);
  const kept = useKeptTicket(listed?.id);
  useEffect(() => {
    document.title = `${number} ${listed?.site.name ?? ''}`;
  }, [number, listed]);
  if (work === undefined) return <p role="status">{PAGE_WORDS.oneMoment}</p>;
  if (listed === undefined) return <NotHere text={FIELD_WORDS.noSuchTicket(number ?? '')} />;
  if (kept === undefined) return <p role="status">{PAGE_WORDS.oneMoment}</p>;
  if (kept === null) return <NotHere text={FIELD_WORDS.kitNotHere} />;
  return <Ticket key={listed.id} kept={kept} what={what} />;
}

function NotHere({ text }: { text: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {PAGE_WORDS.nothingHere}
      </h1>
      <p>{text}</p>
      <p>
        <a href="/field">{FIELD_WORDS.jobs}</a>
      </p>
    </section>
  );
}

function Ticket({ kept, what }: { kept: KeptRead<AnyKeptTicket>; what: string | undefined }) {
  const { work } = useField();
  const { ticket } = kept.value;
  const kit = 'kit' in kept.value ? kept.value.kit : kept.value.inWords;
  const [isRead, setRead] = useState(() => haveBeenRead(ticket.id));
  const visit = work?.value.visits.find(
    ({ ticketIds, state }) => ticketIds.includes(ticket.id) && state !== 'done',
  );
  const subject = useMemo(
    (): EntrySubject => ({
      ticketId: ticket.id,
      visitId: visit?.id ?? null,
      siteId: ticket.siteId,
      name: `${ticket.number}, ${kit.site.name}`,
    }),
    [ticket.id, ticket.siteId, ticket.number, visit?.id, kit.site.name],
  );
  const home = `/field/tickets/${ticket.number}`;
  const isClosedHere = useClosedHere(kept);
  // The head of the page tells how old the rest is.
  const isOlder = Date.parse(work?.askedAt ?? kept.askedAt) - Date.parse(kept.askedAt) > OLDER_MS;
  if (!isRead) return <Cautions kit={kit} ticketId={ticket.id} onRead={() => setRead(true)} />;
  return (
    <article class="job-page">
      <p class="job-of">
        <a href={home}>{subject.name}</a>
        {isOlder && <span class="soft"> {readInWords(kept.askedAt)}</span>}
      </p>
      {isClosedHere && <p role="status">{FIELD_WORDS.closedHere}</p>}
      <View {...{ kept, subject, visit, home, what }} />
    </article>
  );
}

interface ViewProps extends FieldTicketProps<AnyKeptTicket> {
  what: string | undefined;
}

function View({ kept: { value, ...read }, what, ...besides }: ViewProps) {
  if ('kit' in value) {
    const One = what === undefined ? StepView : (VIEWS as Record<string, typeof StepView>)[what];
    return One === undefined ? <NotHere text="" /> : <One kept={{ value, ...read }} {...besides} />;
  }
  const views: Readonly<Record<string, typeof InWordsView>> = VIEWS_IN_WORDS;
  const One = what === undefined ? InWordsView : views[what];
  return One === undefined ? <NotHere text="" /> : <One kept={{ value, ...read }} {...besides} />;
}
