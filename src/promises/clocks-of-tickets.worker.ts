import { carrying } from '../compute/carried-error.js';
import { type ClockQuestion, clockOf } from './ticket-clock.js';

export default carrying((questions: ClockQuestion[]) => questions.map(clockOf));
