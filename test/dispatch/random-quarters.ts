import fc from 'fast-check';

import type { QuarterProblem } from '#app/dispatch/quarter-problem.js';

const AREAS = 2;

/** Quarters of so many visits, days and technicians in two areas; the first technician alone has the ladder. */
export function randomQuarter(most: {
  visits: number;
  technicians: number;
  days: number;
  /** So many visits, and not fewer. */
  isFull?: boolean;
}): fc.Arbitrary<QuarterProblem> {
  const day = fc.integer({ min: 0, max: most.days - 1 });
  const technicians = Array.from({ length: most.technicians }, (_, index) => `technician ${index}`);
  const visit = fc.record(
    {
      area: fc.integer({ min: 0, max: AREAS - 1 }),
      minutes: fc.integer({ min: 30, max: 240 }),
      idealDay: day,
      days: fc.uniqueArray(day, { maxLength: most.days }).map((days) => days.sort((a, b) => a - b)),
      skills: fc.subarray(['ladder']),
      dayCost: fc.integer({ min: 1, max: 10 }),
      undoneCost: fc.integer({ min: 50, max: 500 }),
      pinnedTo: fc.constantFrom(...technicians),
      notBy: fc.subarray(technicians, { maxLength: 1 }),
    },
    {
      requiredKeys: [
        'area',
        'minutes',
        'idealDay',
        'days',
        'skills',
        'dayCost',
        'undoneCost',
        'notBy',
      ],
    },
  );
  return fc.record({
    visits: fc
      .array(visit, { minLength: most.isFull ? most.visits : 1, maxLength: most.visits })
      .map((visits) => visits.map((one, index) => ({ ...one, id: `visit ${index}` }))),
    technicians: fc.tuple(
      ...technicians.map((id, index) =>
        fc.record({
          id: fc.constant(id),
          skills: fc.constant(index === 0 ? ['ladder'] : []),
          minutesOfDay: fc.array(fc.constantFrom(0, 240, 480), {
            minLength: most.days,
            maxLength: most.days,
          }),
        }),
      ),
    ),
    areaMinutes: fc.array(fc.integer({ min: 0, max: 90 }), {
      minLength: AREAS,
      maxLength: AREAS,
    }),
  });
}
