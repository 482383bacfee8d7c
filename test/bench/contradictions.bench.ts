import { drawingDoubt } from '#app/locating/drawing-doubt.js';
import { workOut } from '#app/locating/locate-ticket.js';
import { readFacts } from '#app/locating/ticket-facts.js';
import { checksForBoth } from '#app/locating/worth-checking.js';
import { wordsIn } from '#app/words/index.js';
import { contradictingTicket } from './contradicting-ticket.js';
import { processorTimes } from './processor-time.js';

const WORDS = wordsIn('en');
const TICKETS = [
  { reports: 60, callers: 55, sittings: 1 },
  { reports: 200, callers: 100, sittings: 1 },
  { reports: 608, callers: 200, sittings: 1 },
  { reports: 608, callers: 200, sittings: 3 },
];

/** What named callers who contradict each other cost, by the parts of a ticket's answer. A task may take 20 s of the processor. */
export function benchContradictions(log: (line: string) => void): void {
  log(
    'tickets of callers who contradict each other, 52 rooms in rows, milliseconds of the processor:',
  );
  for (const row of [26, 52])
    for (const ticket of TICKETS) {
      const facts = readFacts(contradictingTicket({ ...ticket, rooms: 52, row }));
      const time = (work: () => unknown) => processorTimes(1, work)[0] ?? NaN;
      const location = workOut(facts, 10);
      const found = time(() => workOut(facts, 10));
      const checks = time(() => checksForBoth(location, WORDS));
      const judged = time(() => drawingDoubt(location, WORDS));
      const per = (part: number) => `${part.toFixed(0)} (${(part / found).toFixed(1)} times)`;
      log(
        `  ${ticket.reports} reports of ${ticket.callers} callers in ${ticket.sittings} sittings, ${row} in a row: ` +
          `location ${found.toFixed(0)}, checks ${per(checks)}, whether the drawing is right ${per(judged)}`,
      );
    }
}
