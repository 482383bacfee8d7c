import { useRef } from 'preact/hooks';
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

/** Moves tickets that nobody decided about, each once, and books the visit; what is asked about goes through once it is meant so. */
export function useBooking({ siteId, tickets, draft, onBooked }: Booking) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const moved = useRef(new Set<string>());
  const moveReported = async () => {
    for (const { id, state } of tickets) {
      const isToMove = draft.ticketIds.includes(id) && state === 'reported';
      if (!isToMove || moved.current.has(id)) continue;
      const saidBy = { name: service.session.person.name, kind: 'office' };
      const body = { saidBy, to: 'to-visit', reason: draft.whyGo.trim() || null };
      await service.send('POST', `/tickets/${id}/moves`, { body });
      moved.current.add(id);
    }
  };
  const book = (confirmed: readonly string[]) =>
    send(async () => {
      const path = `/visits to ${siteId}`;
      const visit = { ...toVisit(siteId, draft, BOOK_VISIT_WORDS.usual[draft.kind]), confirmed };
      const body = { id: repeatId(kept, path, visit, uuidv7), ...visit };
      await moveReported();
      const made = await service.send<ReadVisit>('POST', '/visits', { body });
      forgetId(kept, path);
      onBooked(made);
    });
  return { isSending, failure, book };
}
