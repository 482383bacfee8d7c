import type { KeptRead } from './field-database.js';
import type { AnyKeptTicket } from './ticket-page.js';
import { useUntold } from './use-field.js';

/** Whether it was closed on this phone, of which the service’s answers do not tell yet. */
export function useClosedHere(kept: KeptRead<AnyKeptTicket>): boolean {
  const path = `/tickets/${kept.value.ticket.id}/moves`;
  return useUntold(kept).some(
    (one) => one.path === path && one.body['to'] === 'closed' && one.state !== 'refused',
  );
}
