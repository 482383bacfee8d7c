import { carrying } from '../compute/carried-error.js';
import { clockOf } from './ticket-clock.js';

export default carrying(clockOf);
