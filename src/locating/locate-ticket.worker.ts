import { carrying } from '../compute/carried-error.js';
import { locateTicket } from './locate-ticket.js';

export default carrying(locateTicket);
