import { describe, expect, it } from '@jest/globals';
import { InvalidLocateRequest, type LocateRequest } from '../locator/index.js';
import { fitReadings } from './fit-readings.js';
import type { TakenReading } from '../readings/taken-reading.js';

const posed: LocateRequest = { trunks: [], exposureDays: 1 };
const electrical = { sourceVolts: 24, sourceOhms: 0, stationAmps: 0, coreOhmsPerKm: 18 };
const VOLTS = {
  kind: 'supply-volts',
  trunk: 'A',
  node: 'A1',
  volts: 1,
  uncertaintyVolts: 1,
} as const;
const PATH: TakenReading['reading'] = {
  kind: 'continuity',
  trunk: 'A',
  to: 'A1',
  cores: ['supply'],
  passes: true,
};
const taken = (id: string, reading: TakenReading['reading']): TakenReading => {
  const by = { takenBy: 'Ilvo Marsh', takenByKind: 'technician' } as const;
  return { id, reading, ...by, takenAt: new Date(0), period: 0, withdrawalId: null };
};
const chosen = [taken('old', VOLTS), taken('new', PATH)];
const refuse = (pointer: string) => {
  throw new InvalidLocateRequest([{ pointer, reason: 'no' }]);
};

describe('fitting readings', () => {
  it('leaves the request as it is where there are none', () => {
    const { posed: request, used } = fitReadings(posed, { chosen: [], leftOut: [] }, () => 1);
    expect(request).toBe(posed);
    expect(used).toEqual([]);
  });

  it('leaves out what is refused by its place, the oldest beyond a limit, and the supply with what needs it', () => {
    const asked: LocateRequest[] = [];
    const refusing = (pointer: string, until: number) => (request: LocateRequest) => {
      asked.push(request);
      return (request.readings ?? []).length > until ? refuse(pointer) : 'worked';
    };
    const given = {
      chosen,
      leftOut: [{ id: 'gone', why: { kind: 'withdrawn' } as const }],
      electrical,
    };
    const byPlace = fitReadings(posed, given, refusing('/readings/0/to', 1));
    expect(byPlace.used.map(({ id }) => id)).toEqual(['old']);
    expect(byPlace.leftOut).toEqual([
      { id: 'gone', why: { kind: 'withdrawn' } },
      { id: 'new', why: { kind: 'refused', reason: 'to: no' } },
    ]);
    expect(byPlace.posed).toEqual({ ...posed, electrical, readings: [VOLTS] });
    const byLimit = fitReadings(posed, given, refusing('/readings', 1));
    expect(byLimit.used.map(({ id }) => id)).toEqual(['new']);
    const bySupply = fitReadings(posed, given, refusing('/electrical', 1));
    expect(bySupply.posed).toEqual({ ...posed, readings: [PATH] });
    expect(asked[0]?.readings).toEqual([PATH, VOLTS]);
  });

  it('passes on what has nothing to do with readings', () => {
    const given = { chosen, leftOut: [] };
    expect(() => fitReadings(posed, given, () => refuse('/observations'))).toThrow(
      InvalidLocateRequest,
    );
  });
});
