import fc from 'fast-check';

import type { DayJob, DayProblem, DayTechnician } from '#app/dispatch/day-problem.js';

const MORNING = 480;
const EVENING = 1020;

/** Days of so many jobs and technicians over a square of an hour's drive. */
export function randomDay(most: {
  jobs: number;
  technicians: number;
  /** So many, and not fewer. */
  isFull?: boolean;
}): fc.Arbitrary<DayProblem> {
  const upTo = (max: number) => fc.integer({ min: most.isFull ? max : 1, max });
  return fc
    .tuple(upTo(most.jobs), upTo(most.technicians))
    .chain(([jobs, technicians]) =>
      fc.record({
        points: fc.array(fc.tuple(minute(0, 60), minute(0, 60)), {
          minLength: jobs + technicians,
          maxLength: jobs + technicians,
        }),
        jobs: fc.array(randomJob(technicians), { minLength: jobs, maxLength: jobs }),
        technicians: fc.array(randomTechnician, {
          minLength: technicians,
          maxLength: technicians,
        }),
        waitsFrom: fc.constant(MORNING),
        movedCost: minute(0, 30),
      }),
    )
    .map(({ points, jobs, technicians, waitsFrom, movedCost }) => ({
      jobs: jobs.map((job, place) => ({ ...job, id: `job ${place}`, place })),
      technicians: technicians.map(({ goesHome, ...technician }, index) => ({
        ...technician,
        id: `technician ${index}`,
        startPlace: jobs.length + index,
        ...(goesHome && { endPlace: jobs.length + index }),
      })),
      travelMinutes: points.map(([x, y]) =>
        points.map(([otherX, otherY]) => Math.ceil(Math.hypot(x - otherX, y - otherY))),
      ),
      waitsFrom,
      movedCost,
    }));
}

function minute(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min, max });
}

const skills = fc.subarray(['ladder', 'head-end']);

const randomTechnician: fc.Arbitrary<
  Omit<DayTechnician, 'id' | 'startPlace' | 'endPlace'> & { goesHome: boolean }
> = fc.record({
  fromMinute: minute(MORNING, MORNING + 60),
  toMinute: minute(EVENING - 240, EVENING),
  skills: fc.constant(['ladder', 'head-end']).map((all) => all.slice(0, 2)),
  goesHome: fc.boolean(),
});

function randomJob(technicians: number): fc.Arbitrary<Omit<DayJob, 'id' | 'place'>> {
  const somebody = minute(0, technicians - 1).map((index) => `technician ${index}`);
  const everybody = Array.from({ length: technicians }, (_, index) => `technician ${index}`);
  // Of some, nobody said what their van carries.
  const secondTripCost = fc
    .array(fc.oneof(fc.constant(undefined), minute(0, 90)), {
      minLength: technicians,
      maxLength: technicians,
    })
    .map((costs) =>
      Object.fromEntries(
        everybody.flatMap((id, index) => {
          const cost = costs[index];
          return cost === undefined ? [] : [[id, cost]];
        }),
      ),
    );
  return fc.record(
    {
      minutes: minute(10, 120),
      windows: fc.oneof(
        fc.constant([]),
        fc
          .tuple(minute(MORNING, 700), minute(0, 200))
          .map(([from, length]) => [{ from, to: from + length }]),
      ),
      skills,
      variance: minute(0, 2500),
      respondBy: minute(MORNING, EVENING),
      restoreBy: minute(MORNING, EVENING),
      latePerMinute: minute(0, 4),
      waitPerMinute: minute(0, 1),
      undoneCost: minute(20, 400),
      pinnedTo: somebody,
      notBy: fc.array(somebody, { maxLength: 1 }),
      plannedBefore: somebody,
      secondTripCost,
    },
    {
      requiredKeys: [
        'minutes',
        'windows',
        'skills',
        'latePerMinute',
        'waitPerMinute',
        'undoneCost',
        'notBy',
      ],
    },
  );
}
