import { carrying } from '../compute/carried-error.js';
import { kitOf } from './kit-ticket.js';

export default carrying(kitOf);
