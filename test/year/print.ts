import { printSituations } from '../accuracy/print-situations.js';
import { printYear } from './print-year.js';

// What `npm run accuracy` prints: what a year costs, then how often the cause is named.
printYear(console.log);
printSituations(console.log);
