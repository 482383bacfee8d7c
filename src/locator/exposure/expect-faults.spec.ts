import { describe, expect, it } from '@jest/globals';
import { DEFAULT_RATES } from '../../plan/rates.js';
import type { Component } from './component.js';
import { expectFaults, type SiteHistory } from './expect-faults.js';

const YEAR = 365.25;
const trunks = [
  {
    id: 'A',
    nodes: [
      { id: '1', kind: 'station' as const, cableMetres: 10, fedFrom: null },
      { id: '2', kind: 'station' as const, cableMetres: 20 },
      { id: '3', kind: 'station' as const, cableMetres: 30 },
    ],
  },
];
const tables = {
  'head-end': DEFAULT_RATES.headEnd,
  port: DEFAULT_RATES.port,
  'junction-out': DEFAULT_RATES.junction,
  cable: DEFAULT_RATES.cablePerMetre,
  'junction-in': DEFAULT_RATES.junction,
  station: DEFAULT_RATES.station,
};
const record = (more: Partial<SiteHistory> = {}): SiteHistory => ({
  proofs: [],
  newDaysAgo: () => YEAR,
  touchedDaysAgo: () => undefined,
  ratesPerYear: ({ component }: Component) => tables[component],
  ...more,
});
const node = (more: Partial<SiteHistory>, n: number) =>
  expectFaults(trunks, record(more)).trunks[0]!.nodes[n]!;

describe('the faults to be expected', () => {
  it('are rates times years, and times metres for cable', () => {
    const { headEnd, trunks: found } = expectFaults(trunks, record());
    expect(headEnd).toEqual(DEFAULT_RATES.headEnd);
    expect(found[0]!.port).toEqual(DEFAULT_RATES.port);
    expect(found[0]!.nodes[1]!.station).toEqual(DEFAULT_RATES.station);
    expect(found[0]!.nodes[1]!.cable.parted).toBeCloseTo(20 * 4e-5, 12);
  });

  it('start anew with what an announcement proves on the path to it, and only with that', () => {
    const proofs = [
      { trunk: 'A', node: '2', function: 'announcement' as const, daysAgo: YEAR / 10 },
    ];
    for (const n of [0, 1]) {
      const { junctionIn, junctionOut } = node({ proofs }, n);
      expect(junctionIn['open-speech']).toBeCloseTo(0.00015, 12);
      expect(junctionOut['open-select']).toBeCloseTo(0.0015, 12);
    }
    expect(node({ proofs }, 2).junctionIn['open-speech']).toBeCloseTo(0.0015, 12);
    expect(node({ proofs }, 1).station['volume-down']).toBeCloseTo(0.003, 12);
    expect(node({ proofs }, 0).station['volume-down']).toBeCloseTo(0.03, 12);
    expect(node({ proofs }, 0).station['short-supply']).toBeCloseTo(0.0001, 12);
    const { headEnd } = expectFaults(trunks, record({ proofs }));
    expect(headEnd.amplifier).toBeCloseTo(0.004, 12);
    expect(headEnd.receiver).toBeCloseTo(0.02, 12);
  });

  it('start anew for a component that was mended, and are raised for one that was touched', () => {
    const one = ({ component, ...at }: Component) =>
      component === 'junction-in' && 'node' in at && at.node === '2';
    const newDaysAgo = (of: Component) => (one(of) ? 10 : YEAR);
    const touchedDaysAgo = (of: Component) => (one(of) ? 10 : undefined);
    const mended = node({ newDaysAgo, touchedDaysAgo }, 1);
    expect(mended.junctionIn.parted).toBeCloseTo((0.002 * 100) / YEAR, 12);
    expect(mended.junctionOut.parted).toBeCloseTo(0.002, 12);
    expect(node({ touchedDaysAgo }, 1).junctionIn.parted).toBeCloseTo(
      (0.002 * (YEAR + 90)) / YEAR,
      12,
    );
  });

  it('of a group’s modes end with what was heard at one of its stations, and at no other', () => {
    const [trunk] = trunks;
    const grouped = trunk!.nodes.map((one, n) => ({
      ...one,
      groups: n === 0 ? ['low'] : ['high'],
    }));
    const heard = { trunk: 'A', node: '1', function: 'bell', daysAgo: YEAR / 4 } as const;
    const { headEnd } = expectFaults([{ id: 'A', nodes: grouped }], record({ proofs: [heard] }));
    expect(headEnd['group-off:low']).toBeCloseTo(0.02 / 4, 12);
    expect(headEnd['group-bell-off:low']).toBeCloseTo(0.01 / 4, 12);
    expect(headEnd['group-announcement-off:low']).toBeCloseTo(0.01, 12);
    expect(headEnd['group-off:high']).toBeCloseTo(0.02, 12);
  });
});
