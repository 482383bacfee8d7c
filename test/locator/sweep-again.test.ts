// A sweep that is done again passes only what has changed, in tables that another one has left: they must be, to the last
// bit, those of a sweep of everything.
import { expect, test } from '@jest/globals';
import { rowsOf } from '#app/locator/checks/function-check-bits.js';
import { siteGivenStation, siteGivenVolts } from '#app/locator/checks/site-given.js';
import { DEFAULT_ERROR_RATES, type LocateRequest } from '#app/locator/index.js';
import { readRequest } from '#app/locator/request/read-request.js';
import { siteModel, type SiteModel } from '#app/locator/sweep/site.js';
import { sweepUp, sweepUpAgain, type SweptAgain } from '#app/locator/sweep/sweep-trunk.js';
import { seededRandom } from '#app/statistics/seeded-random.js';

import { box, continuity, ELECTRICAL, saw, station } from './request-builders.js';

/** Leaves of three branches, of which one branches again, and a row at the end. */
const NODES = [
  box('T', 20),
  station('A1', 10, 'T'),
  station('A2', 12, 'T'),
  station('A3', 14, 'A2'),
  station('A4', 9, 'A2'),
  box('U', 30, 'T'),
  station('A5', 11, 'U'),
  station('A6', 8, 'U'),
  station('A7', 13, 'A6'),
  station('A8', 7, 'A7'),
];
const STATIONS = NODES.flatMap(({ kind }, n) => (kind === 'station' ? [n] : []));

const callers = [
  saw('A4', 'bell', 'fails', 'p'),
  saw('A8', 'announcement', 'works', 'q'),
  saw('A3', 'lamp', 'fails', 'q'),
];
const REQUESTS: Record<string, Partial<LocateRequest>> = {
  'nobody in particular': { observations: [saw('A4', 'bell', 'fails')] },
  'callers who may be confused': { observations: callers },
  'readings of cores': {
    observations: callers,
    readings: [
      continuity(null, 'A2', ['speech', 'return'], true),
      continuity('T', 'A7', ['select'], false),
    ],
    electrical: ELECTRICAL,
  },
  'a trunk that was disconnected': {
    observations: [
      ...callers,
      { ...saw('A1', 'bell', 'works', 'technician'), disconnectedBelow: 'U' },
    ],
  },
} as never;

const UPWARD = ['bottom', 'top', 'faulty', 'bottomScale', 'topScale', 'scale', 'gain'] as const;

test.each(Object.entries(REQUESTS))('what goes up is the same done again: %s', (_name, told) => {
  const request = readRequest({ trunks: [{ id: 'A', nodes: NODES }], exposureDays: 200, ...told });
  const site = siteModel(request, DEFAULT_ERROR_RATES, undefined, { apart: 0b11111 });
  const random = seededRandom(11);
  const below = (count: number) => Math.floor(random() * count);
  const change = (of: SiteModel): SiteModel => {
    const n = STATIONS[below(STATIONS.length)]!;
    if (random() < 0.2) return siteGivenVolts(of, 0, n, below(3));
    const action = { kind: 'function', trunk: 'A', node: NODES[n]!.id, function: 'bell' } as const;
    const at = { t: 0, n, func: below(of.headEnd.functions), mended: 0 };
    const rows = rowsOf(of.system.plan, { action, at }, DEFAULT_ERROR_RATES.office);
    return siteGivenStation(of, at, rows, below(rows[0]!.length));
  };
  const before = sweepUp(site.trunks[0]!);
  let spare: SweptAgain | undefined;
  for (let time = 0; time < 40; time++) {
    let other = site;
    for (let changes = below(3); changes >= 0; changes--) other = change(other);
    spare = sweepUpAgain(before, other.trunks[0]!, spare);
    const wanted = sweepUp(other.trunks[0]!);
    expect(spare.port.logEvidence).toEqual(wanted.port.logEvidence);
    for (const name of UPWARD) expect(spare.tables[name]).toEqual(wanted.tables[name]);
    expect(spare.nodes.map(({ join }) => join.products.length)).toEqual(
      wanted.nodes.map(({ join }) => join.products.length),
    );
  }
});
