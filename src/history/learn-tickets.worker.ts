import { carrying } from '../compute/carried-error.js';
import type { AsBuilt } from '../sites/as-built.js';
import { type ClosedTicket, ticketExperience } from './ticket-experience.js';

export default carrying(({ asBuilt, tickets }: { asBuilt: AsBuilt; tickets: ClosedTicket[] }) =>
  tickets.map((ticket) => ticketExperience(ticket, asBuilt)),
);
