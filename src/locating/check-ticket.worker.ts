import { carrying } from '../compute/carried-error.js';
import { checkTicket } from './locate-ticket.js';

export default carrying(checkTicket);
