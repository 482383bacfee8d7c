import { describe, expect, it } from '@jest/globals';
import { learnedPace, USUAL_WORK_TIMES, workTimesOf } from './work-times.js';

const visit = (minutes: number) => ({ minutes, findings: 1, mendings: 1 });

describe('work times', () => {
  it('are the usual ones until the firm says otherwise', () => {
    const { factor } = learnedPace([]);
    expect(factor).toBe(1);
    expect(workTimesOf({}, { factor })).toEqual(USUAL_WORK_TIMES);
    const own = workTimesOf({ lookAtFuse: 4 }, { factor: 2 });
    expect([own.lookAtFuse, own.listen, own.secondTrip]).toEqual([
      4,
      2 * USUAL_WORK_TIMES.listen,
      USUAL_WORK_TIMES.secondTrip,
    ]);
  });

  it('go by the firm’s visits, the more the more there are', () => {
    const slow = (count: number) => learnedPace(Array.from({ length: count }, () => visit(120)));
    const usual = learnedPace([visit(60)]);
    const [few, many, most] = [slow(2), slow(20), slow(2000)].map(({ factor }) => factor);
    expect(few).toBeGreaterThan(1);
    expect(few).toBeLessThan(1.2);
    expect(many).toBeGreaterThan(few ?? NaN);
    // 0.5 + 3 (1 + 2 + 1.5 + 2) + 2 + 4 + 3 + 10 = 39 minutes are usual for it.
    expect(most).toBeCloseTo(120 / 39, 1);
    expect(usual).toMatchObject({ visits: 1, minutes: 60 });
  });

  it('do not go by visits that were left running or on which nothing was recorded', () => {
    const nothing = { minutes: 90, findings: 0, mendings: 0 };
    expect(learnedPace([visit(2), visit(5000), nothing])).toEqual({
      factor: 1,
      visits: 0,
      minutes: 0,
    });
  });
});
