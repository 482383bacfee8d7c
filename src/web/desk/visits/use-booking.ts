import { uuidv7 } from 'uuidv7';
import { keepIn } from '../../parts/kept.js';
import { forgetId, repeatId } from '../../parts/repeat-id.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadListedTicket, ReadVisit } from '../../parts/wire.js';
import { BOOK_VISIT_WORDS } from '../words/words.js';
import { toVisit, type VisitDraft } from './visit-draft.js';

const kept = keepIn(() => sessionStorage);

interface Booking {
  siteId: string;
  tickets: readonly ReadListedTicket[];
  draft: VisitDraft;
  onBooked: (visit: ReadVisit) => void;
}

/** Books the visit, and with it says of tickets that nobody decided about that somebody must go; what is asked about goes through once it is meant so. */
export function useBooking({ siteId, tickets, draft, onBooked }: Booking) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const reported = tickets
    .filter(({ id, state }) => draft.ticketIds.includes(id) && state === 'reported')
    .map(({ id }) => id);
  const saidBy = { name: service.session.person.name, kind: 'office' };
  const sending = { ticketIds: reported, saidBy, reason: draft.whyGo.trim() || null };
  const book = (confirmed: readonly string[]) =>
    send(async () => {
      const path = `/visits to ${siteId}`;
      const visit = {
        ...toVisit(siteId, draft, BOOK_VISIT_WORDS.usual[draft.kind]),
        confirmed,
        ...(reported.length > 0 && { sending }),
      };
      const body = { id: repeatId(kept, path, visit, uuidv7), ...visit };
      const made = await service.send<ReadVisit>('POST', '/visits', { body });
      forgetId(kept, path);
      onBooked(made);
    });
  return { isSending, failure, book };
}
