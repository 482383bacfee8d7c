import { useLocation } from 'preact-iso';
import { ChooseField, TicksField } from '../../parts/choose-field.js';
import type { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { TextField } from '../../parts/text-field.js';
import { shortDay } from '../../parts/time-words.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import type { ReadListedTicket, ReadVisit } from '../../parts/wire.js';
import { lastDay } from '../contracts/contract-sentences.js';
import { asHeadline } from '../desk-words.js';
import { useDraft } from '../use-draft.js';
import { BOOK_VISIT_WORDS, CONTRACT_WORDS, TICKET_WORDS } from '../words/words.js';
import type { ForVisit } from './book-visit-page.js';
import { useBooking } from './use-booking.js';
import { WhenAndWho } from './when-and-who.js';
import { bestDayFrom, type BookedKind, type VisitDraft } from './visit-draft.js';

const FIELDS = [
  '/technicianId',
  '/on',
  '/fromTime',
  '/untilTime',
  '/purpose',
  '/ticketIds',
  '/sending/reason',
];

interface VisitFormProps extends ForVisit {
  onBooked: (visit: ReadVisit) => void;
}

export function VisitForm(props: VisitFormProps) {
  const { site, owed, tickets, onBooked } = props;
  const { draft, give, settle } = useVisitDraft(props);
  const { isSending, failure, book } = useBooking({
    siteId: site.id,
    tickets,
    draft,
    onBooked: (visit) => {
      settle();
      onBooked(visit);
    },
  });
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const asked = failure?.confirm ?? [];
  const submit = (event: Event) => {
    event.preventDefault();
    book([]);
  };
  return (
    <form onSubmit={submit} noValidate ref={form}>
      <ChooseField
        label={BOOK_VISIT_WORDS.kind}
        value={draft.kind}
        choices={(['planned', 'call-out'] as const).map((kind) => ({
          value: kind,
          words: BOOK_VISIT_WORDS.kinds[kind],
        }))}
        onValue={(kind) => give({ kind: kind as BookedKind })}
      />
      {draft.kind === 'planned' && (
        <Owed owed={owed} onDay={(on) => give({ on })} zone={site.zone} />
      )}
      <VisitFields {...props} draft={draft} give={give} failure={failure} />
      <FailureLine failure={failure} fields={FIELDS} />
      <p class="buttons">
        <button type="submit" class="main" aria-disabled={isSending}>
          {BOOK_VISIT_WORDS.book}
        </button>
        {asked.length > 0 && (
          <button type="button" aria-disabled={isSending} onClick={() => book(asked)}>
            {BOOK_VISIT_WORDS.meantSo}
          </button>
        )}
      </p>
    </form>
  );
}

/** What the address asks for, until something else is typed. */
function useVisitDraft({ site, owed }: VisitFormProps) {
  const { on, kind } = useLocation().query;
  const today = todayAt(site.zone);
  const best = owed[0] === undefined ? today : bestDayFrom(today, owed[0]);
  return useDraft<VisitDraft>(`visit to ${site.id}, ${kind ?? ''} ${on ?? ''}`, {
    kind: kind === 'call-out' ? 'call-out' : 'planned',
    on: on ?? (kind === 'call-out' ? today : best),
    ...{ technicianId: '', fromTime: '', untilTime: '', purpose: '', whyGo: '' },
    ticketIds: [],
  });
}

interface OwedProps {
  owed: ForVisit['owed'];
  zone: string;
  onDay: (on: string) => void;
}

/** What is promised there and not planned; one touch takes its best day. */
function Owed({ owed, zone, onDay }: OwedProps) {
  const today = todayAt(zone);
  if (owed.length === 0) return <p class="hint">{BOOK_VISIT_WORDS.nothingOwed}</p>;
  return (
    <section>
      <h2>{BOOK_VISIT_WORDS.owed}</h2>
      <ul class="plain">
        {owed.map((one) => {
          const best = bestDayFrom(today, one);
          return (
            <li key={`${one.year} ${one.ordinal}`}>
              {shortDay(one.from)} – {lastDay(one.until)}: {CONTRACT_WORDS.standings[one.standing]}{' '}
              <button type="button" class="small" onClick={() => onDay(best)}>
                {BOOK_VISIT_WORDS.takeDay(shortDay(best))}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

interface VisitFieldsProps extends ForVisit {
  draft: VisitDraft;
  give: (more: Partial<VisitDraft>) => void;
  failure: Failure | undefined;
}

function VisitFields({ site, tickets, technicians, draft, give, failure }: VisitFieldsProps) {
  const words = BOOK_VISIT_WORDS;
  const wrong = (field: string) => failure?.sentenceFor(field);
  const typed = (name: Typed, label: string, field: string, hint?: string) => (
    <TextField
      label={label}
      {...(hint !== undefined && { hint })}
      autocomplete="off"
      maxLength={2000}
      value={draft[name]}
      onValue={(value) => give({ [name]: value })}
      error={wrong(field)}
    />
  );
  const isReported = tickets.some(
    ({ id, state }) => state === 'reported' && draft.ticketIds.includes(id),
  );
  return (
    <>
      <WhenAndWho zone={site.zone} shown={draft} {...{ technicians, give, failure }} />
      {tickets.length > 0 && (
        <TicksField
          legend={draft.kind === 'planned' ? words.ticketsToo : words.tickets}
          choices={tickets.map((ticket) => ({ id: ticket.id, name: ticketInWords(ticket) }))}
          chosen={draft.ticketIds}
          onChosen={(ticketIds) => give({ ticketIds })}
          error={wrong('/ticketIds')}
        />
      )}
      {tickets.length === 0 && draft.kind === 'call-out' && (
        <p class="notice">
          {words.noTickets} <a href={`/desk/call?site=${site.id}`}>{words.takeCall}</a>
        </p>
      )}
      {isReported && typed('whyGo', TICKET_WORDS.sendWhy, '/sending/reason')}
      {typed('purpose', words.purpose, '/purpose', words.purposeHint(words.usual[draft.kind]))}
    </>
  );
}

type Typed = 'purpose' | 'whyGo';

function ticketInWords({ number, likeliest }: ReadListedTicket): string {
  const place = likeliest === null ? '' : `: ${asHeadline(likeliest.words)}`;
  return `${TICKET_WORDS.ticket(number)}${place}`;
}

function todayAt(timeZone: string): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone }).format(new Date());
}
