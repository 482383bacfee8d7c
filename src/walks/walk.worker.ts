import { carrying } from '../compute/carried-error.js';
import { walkTicket } from './walk-ticket.js';

export default carrying(walkTicket);
