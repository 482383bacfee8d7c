import { describe, expect, it } from '@jest/globals';
import type { OwedQuarterVisit, PlacedQuarterVisit } from '../../parts/wire.js';
import { laysWeeks, mondayFrom } from './quarter-weeks.js';

const FROM = '2026-03-02';

const owed = (siteName: string, ideal: string) =>
  ({ siteName, ideal, isLate: false }) as OwedQuarterVisit;
const placed = (siteName: string, ideal: string, on: string, technicianId: string, area: number) =>
  ({ ...owed(siteName, ideal), on, technicianId, area }) as PlacedQuarterVisit;

describe('the weeks of a quarter', () => {
  it('have a strand for each technician, and a way for what shares it', () => {
    const { strands, weeks } = laysWeeks(
      FROM,
      [
        placed('Larkfield', '2026-03-05', '2026-03-03', 'ilvo', 0),
        placed('Sluice', '2026-03-03', '2026-03-03', 'ilvo', 0),
        placed('Tarn', '2026-03-01', '2026-03-03', 'ilvo', 1),
        placed('Fell', '2026-05-31', '2026-05-31', 'sanna', 1),
      ],
      'technician',
    );
    expect(strands).toEqual(['ilvo', 'sanna']);
    expect(weeks).toHaveLength(13);
    const [outing] = weeks[0]!.outings[0]!;
    expect(outing!.ways.map(({ visits }) => visits.map(({ away }) => away))).toEqual([
      [-2, 0],
      [2],
    ]);
    expect(weeks[12]).toMatchObject({ from: '2026-05-25', outings: [[], [{ on: '2026-05-31' }]] });
  });

  it('have a strand for each area, on which two may be out at once', () => {
    const visits = [
      placed('Larkfield', FROM, FROM, 'ilvo', 0),
      placed('Sluice', FROM, FROM, 'sanna', 0),
    ];
    const { strands, weeks } = laysWeeks(FROM, visits, 'area');
    expect(strands).toEqual(['0']);
    const [outing] = weeks[0]!.outings[0]!;
    expect(outing!.ways.map(({ technicianId }) => technicianId)).toEqual(['ilvo', 'sanna']);
  });

  it('have what nobody planned on its best day, what is late on the first', () => {
    const visits = [owed('Larkfield', '2026-01-20'), owed('Sluice', '2026-03-10')];
    const { strands, weeks } = laysWeeks(FROM, visits, 'technician');
    expect(strands).toEqual(['']);
    expect(weeks.slice(0, 2).map(({ outings }) => outings[0]!.map(({ on }) => on))).toEqual([
      [FROM],
      ['2026-03-10'],
    ]);
  });

  it('begin on a Monday', () => {
    expect(['2026-03-01', '2026-03-02', '2026-03-03'].map(mondayFrom)).toEqual([
      '2026-03-02',
      '2026-03-02',
      '2026-03-09',
    ]);
  });
});
