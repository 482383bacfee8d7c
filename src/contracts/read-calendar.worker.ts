import { carrying } from '../compute/carried-error.js';
import { readCalendar } from './read-calendar.js';

export default carrying(readCalendar);
