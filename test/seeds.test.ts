import { describe, expect, it } from '@jest/globals';
import type { Type } from '@nestjs/common';

import { VanFieldsDto } from '#app/vans/van.dto.js';
import { WorkingTimeFieldsDto } from '#app/dispatch/working-time.dto.js';
import { CreatePersonDto } from '#app/people/person.dto.js';
import { locate, type Place } from '#app/locator/index.js';
import { HEAD_END_MODES, PORT_MODES, SPAN_MODES, STATION_MODES } from '#app/locator/index.js';
import { surveyTrunk } from '#app/survey/index.js';
import { PAUSE_REASONS } from '#app/promises/promise-clock.js';
import { refusePenPath } from '#app/shared/pen-path.js';
import { createValidationPipe } from '#app/shared/validation.js';
import { CreateClientDto } from '#app/sites/client.dto.js';
import { CreateSiteDto } from '#app/sites/site.dto.js';
import { wordsIn } from '#app/words/index.js';
import { askFirst } from '#app/reports/ask-first.js';
import { CreateReadingDto } from '#app/readings/take-reading.dto.js';
import { recordedElectrical } from '#app/readings/recorded-electrical.js';
import { parseReading, readUnit } from '#app/readings/entered-reading.js';
import { CreateVisitDto } from '#app/visits/visit.dto.js';
import { MoveVisitDto } from '#app/visits/visit-move.dto.js';
import { visitMovesFrom, type VisitState } from '#app/visits/visit-lifecycle.js';

import { checkContract } from '#app/contracts/check-contract.js';
import { CreateClosedCalendarDto } from '#app/contracts/closed-calendar.dto.js';
import { FirmPricesFieldsDto } from '#app/contracts/contract-account.dto.js';
import { CreateContractDto, RenewContractDto } from '#app/contracts/contract.dto.js';
import { type CoverPeriod, flawsOfCover } from '#app/contracts/site-cover.js';
import type { SeedClosedTime, Seeds } from '#app/demo/seed-files.js';

import {
  readDrawing,
  readSeed,
  type SeedRow,
  type SeedSite,
  type SeedTicket,
  type SeedVisit,
  sheetBytes,
} from './support/read-seeds.js';

type SeedContracts = Seeds['contracts'];

const people = readSeed<SeedRow[]>('people');
const vans = readSeed<Seeds['vans']>('vans');
const workingTimes = readSeed<Seeds['workingTimes']>('working-times');
const clients = readSeed<SeedRow[]>('clients');
const sites = readSeed<SeedSite[]>('sites');
const tickets = readSeed<SeedTicket[]>('tickets');
const visits = readSeed<SeedVisit[]>('visits');
const drawings = new Map(sites.map((site) => [site.key, readDrawing(site)]));
const names = people.map(({ name }) => name);

function drawingOf({ siteKey }: { siteKey: string }) {
  const drawing = drawings.get(siteKey);
  if (drawing === undefined) throw new Error(`there is no site ${siteKey}`);
  return drawing;
}

function nodeOf(row: { siteKey: string }, trunk: string, node: string) {
  const drawn = drawingOf(row).trunks.find((one) => one.trunk === trunk);
  return drawn?.nodes.find((one) => one.node === node);
}

/** A row as its POST would take it; rejects with what is wrong. */
function check<Dto>(dto: Type<Dto>, row: object): Promise<Dto> {
  return createValidationPipe().transform(row, { type: 'body', metatype: dto }) as Promise<Dto>;
}

describe('the seeds', () => {
  it('are rows that the API takes', async () => {
    for (const person of people) await check(CreatePersonDto, person);
    for (const { personId, ...time } of workingTimes) {
      await check(WorkingTimeFieldsDto, time);
      expect(people).toContainEqual(expect.objectContaining({ id: personId, work: 'technician' }));
    }
    for (const { personId, ...van } of vans) {
      await check(VanFieldsDto, van);
      expect(workingTimes.map((time) => time.personId)).toContain(personId);
    }
    for (const client of clients) await check(CreateClientDto, client);
    for (const site of sites) {
      const { key: _key, headEnd: _headEnd, trunks: _trunks, sheet: _sheet, ...fields } = site;
      await check(CreateSiteDto, fields);
      expect(clients.map(({ id }) => id)).toContain(site.clientId);
    }
    for (const visit of visits) {
      const { key: _key, siteKey, daysAgo: _daysAgo, ticketKeys, moves, readings, ...rest } = visit;
      const { moved: _moved, heard: _heard, signature: _signature, ...more } = rest;
      const siteId = sites.find(({ key }) => key === siteKey)?.id;
      const ticketIds = ticketKeys.map((key) => tickets.find((one) => one.key === key)?.id);
      await check(CreateVisitDto, { ...more, siteId, ticketIds, on: '2026-03-02' });
      for (const { time: _time, ...move } of moves) await check(MoveVisitDto, move);
      for (const { time: _time, ...reading } of readings) {
        const { entered, kind, unit } = await check(CreateReadingDto, reading);
        expect(parseReading(entered)).toHaveProperty('value');
        expect(readUnit(kind, unit)).toHaveProperty('unit');
      }
    }
    await expect(check(CreatePersonDto, { name: 'Nobody' })).rejects.toThrow();
  });

  it('have contracts of two years that the API takes, with a gap, an overlap and a renewal', async () => {
    const { calendars, contracts, prices } = readSeed<SeedContracts>('contracts');
    const day = (daysAgo: number) =>
      new Date(Date.parse('2026-03-02') - daysAgo * 86_400_000).toISOString().slice(0, 10);
    const time = ({ fromDaysAgo, days, name }: SeedClosedTime) => {
      return { from: day(fromDaysAgo), until: day(fromDaysAgo - days), name };
    };
    for (const { times, ...fields } of calendars) {
      await check(CreateClosedCalendarDto, { ...fields, times: times.map(time) });
    }
    const periods: (CoverPeriod & { siteKey: string })[] = [];
    for (const { siteKeys, fromDaysAgo, days, renewal, coverage, ...fields } of contracts) {
      const covered = siteKeys.map((key) => sites.find((site) => site.key === key));
      for (const site of covered) expect(site).toMatchObject({ clientId: fields['clientId'] });
      const [from, until] = [day(fromDaysAgo), day(fromDaysAgo - days)] as const;
      const contract = await check(CreateContractDto, {
        ...fields,
        siteIds: covered.map((site) => site!.id),
        from,
        until,
        coverage: { ...coverage, closedDays: (coverage.closedDays ?? []).map(time) },
      });
      expect(checkContract(contract)).toEqual([]);
      if (renewal !== undefined) await check(RenewContractDto, renewal);
      siteKeys.forEach((siteKey) => periods.push({ siteKey, contractId: fields.id, from, until }));
    }
    await check(FirmPricesFieldsDto, prices);
    const flaws = sites.map(({ key }) =>
      flawsOfCover(periods.filter((one) => one.siteKey === key)),
    );
    expect(flaws.flatMap(({ gaps }) => gaps)).toHaveLength(1);
    expect(flaws.flatMap(({ overlaps }) => overlaps)).toHaveLength(1);
    expect(contracts.filter(({ renewal }) => renewal !== undefined)).toHaveLength(1);
    expect(new Set(periods.map(({ siteKey }) => siteKey)).size).toBe(sites.length);
    for (const wanted of ['pause', 'troubleClass', 'breachCause'] as const) {
      expect(tickets.some((ticket) => wanted in ticket)).toBe(true);
    }
  });

  it('have ids and keys of their own', () => {
    const ids = [people, clients, sites, tickets, visits].flatMap((rows) =>
      rows.map(({ id }) => id),
    );
    expect(new Set(ids).size).toBe(ids.length);
    for (const rows of [sites, tickets, visits]) {
      expect(new Set(rows.map(({ key }) => key)).size).toBe(rows.length);
    }
  });

  it('have a firm with the people that the work needs', () => {
    expect(readSeed<{ name: string }>('firm').name).toBe('Tarrowmark Bell and Speech');
    const works = people.map(({ work }) => work);
    for (const work of ['owner', 'dispatcher', 'contract-manager']) expect(works).toContain(work);
    expect(works.filter((work) => work === 'technician')).toHaveLength(4);
  });

  it('have sheets of every size and kind, all of which can be read', () => {
    const stations = [...drawings.values()].map(({ trunks }) =>
      trunks.flatMap(({ nodes }) => nodes).filter(({ kind }) => kind === 'station'),
    );
    expect(stations.map((nodes) => nodes.length)).toContain(80);
    expect([...drawings.values()].filter(({ trunks }) => trunks.length === 2)).toHaveLength(1);
    const tees = [...drawings.values()].filter(({ trunks }) =>
      trunks.some(({ nodes }) => nodes.some(({ kind }) => kind === 'junction-box')),
    );
    expect(tees).toHaveLength(1);
    for (const node of stations.flat()) {
      expect(node.room).not.toBeNull();
      expect(node.cableMetres).toBeGreaterThanOrEqual(4);
      expect(node.cableMetres).toBeLessThanOrEqual(40);
    }
    for (const { key, trunks } of sites) {
      expect(drawings.get(key)!.trunks.map(({ trunk }) => trunk)).toEqual(
        trunks.map(({ trunk }) => trunk),
      );
    }
  });

  it('have one sheet as people really have it', () => {
    const messy = sites.find(({ key }) => key === 'iskerholt-timber-works')!;
    const bytes = sheetBytes(messy);
    const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
    expect(text).toMatch(/^\ufeffOrder;TRUNK;/);
    expect(text).toMatch(/;10,3 m;/);
    expect(text).toMatch(/"Saw hall\r\nnorth"/);
    const { nodes } = drawings.get(messy.key)!.trunks[0]!;
    expect(nodes.map(({ node }) => node)).toEqual(
      Array.from({ length: 20 }, (_, i) => `W${String(i + 1).padStart(2, '0')}`),
    );
    expect(nodes[2]).toMatchObject({ cableMetres: 10.3, fedFrom: 'W02' });
    expect(nodes[4]).toMatchObject({ room: 'Saw hall north' });
  });

  it('have tickets whose every reference is there', () => {
    expect(tickets.filter(({ closed }) => !closed)).toHaveLength(3);
    for (const ticket of tickets) {
      for (const { trunk, node } of ticket.observations) {
        expect(nodeOf(ticket, trunk, node)).toMatchObject({ kind: 'station' });
      }
      if (ticket.by !== undefined) expect(names).toContain(ticket.by);
      if (ticket.finding !== undefined) expectOnDrawing(ticket, ticket.finding);
      const isFound = ticket.finding !== undefined || ticket.nothingFound === true;
      expect(isFound || !ticket.closed).toBe(true);
      expect(ticket.closed).toBe(ticket.walkTest === 'all-work');
      const followsUp = ticket.mending?.followUpInDays !== undefined;
      expect(followsUp).toBe(ticket.mending?.kind === 'temporary');
    }
  });

  it('have answers to what is asked before anybody is sent, and to nothing else', () => {
    for (const { key, answers, observations } of tickets) {
      const heard = observations.flatMap(({ outcome, ...point }) =>
        outcome === 'not-checked' ? [] : [{ ...HEARD, ...point, outcome }],
      );
      const asked = askFirst(heard, new Map(), (_trunk, node) => node, wordsIn('en'));
      const answered = answers.map(({ question }) => question);
      // The main job is new: nobody has been asked yet.
      if (key === 'main-job') expect(answered).toEqual([]);
      else expect(answered).toEqual(expect.arrayContaining(['head-end-on']));
      expect(asked.map(({ question }) => question)).toEqual(expect.arrayContaining(answered));
    }
  });

  it('have visits whose every reference is there, and whose moves are allowed', () => {
    for (const visit of visits) {
      if (visit.technicianId !== null) {
        expect(people.map(({ id }) => id)).toContain(visit.technicianId);
      }
      for (const key of visit.ticketKeys) {
        const ticket = tickets.find((one) => one.key === key);
        expect(ticket).toMatchObject({ siteKey: visit.siteKey });
        expect(visit.daysAgo).toBeLessThanOrEqual(ticket!.daysAgo);
      }
      for (const { trunk, node, takenBy } of visit.readings) {
        expect(names).toContain(takenBy);
        if (node !== undefined) expect(nodeOf(visit, trunk!, node)).toBeDefined();
      }
      expectMovesAllowed(visit);
    }
  });

  it('have two whole contract years of one site, with a visit moved, one missed and a walk test left half done', () => {
    const { contracts } = readSeed<SeedContracts>('contracts');
    const college = contracts.filter(({ siteKeys }) => siteKeys.includes('ottring-college'));
    expect(college.map(({ fromDaysAgo, days }) => [fromDaysAgo, days])).toEqual([
      [765, 365],
      [400, 365],
    ]);
    const first = visits.filter(({ siteKey, daysAgo }) => {
      return siteKey === 'ottring-college' && daysAgo > 400;
    });
    expect(first).toHaveLength(4);
    expect(first.map(({ moves }) => moves.at(-1)?.to)).toContain('missed');
    expect(first.filter((visit) => 'moved' in visit)).toHaveLength(1);
    expect(first.map((visit) => visit['heard'])).toEqual(['all', 'half', undefined, undefined]);
  });

  it('have every visit of both years signed for, drawn and typed, but one where nobody was let in', () => {
    const done = visits.filter(({ moves }) => moves.at(-1)?.to === 'done');
    const signed = done.filter((visit) => visit.signature !== undefined);
    expect(done.length).toBeGreaterThan(40);
    expect(done.filter((visit) => !signed.includes(visit)).map(({ key }) => key)).toEqual([
      'not-let-in-sports-hall',
    ]);
    expect(visits.filter((visit) => visit.signature !== undefined)).toEqual(signed);
    const drawn = signed.filter(({ signature }) => signature?.drawn !== undefined);
    expect(drawn.length).toBeGreaterThan(20);
    expect(signed.length - drawn.length).toBeGreaterThan(10);
    for (const { signature, technicianId } of signed) {
      // Nobody of the firm signs for its own work, and somebody's phone was handed over.
      expect(names).not.toContain(signature?.name);
      expect(technicianId).not.toBeNull();
      if (signature?.drawn !== undefined) expect(refusePenPath(signature.drawn)).toBeNull();
    }
  });

  it('have a clock stopped for each reason that there is', () => {
    const reasons = tickets.flatMap(({ pause }) => pause?.reason ?? []);
    expect([...new Set(reasons)].sort()).toEqual([...PAUSE_REASONS].sort());
  });

  it('have findings that the fault model comes to as well, among its first two places', () => {
    const found = tickets.filter(({ finding }) => finding !== undefined);
    expect(found.length).toBeGreaterThanOrEqual(15);
    for (const ticket of found) {
      const firstTwo = placesOf(ticket).slice(0, 2);
      expect(firstTwo.map(({ place }) => place)).toContainEqual(ticket.finding!.place);
    }
  });

  it('have a main job whose likeliest place is the span from Room 12 to Room 13', () => {
    const job = tickets.find(({ key }) => key === 'main-job')!;
    const [first] = placesOf(job);
    expect(first!.place).toEqual({ kind: 'span', trunk: 'A', from: 'A12', to: 'A13' });
    expect(first!.probability).toBeGreaterThan(0.8);
    expect(nodeOf(job, 'A', 'A12')).toMatchObject({ room: 'Room 12' });
    expect(nodeOf(job, 'A', 'A13')).toMatchObject({ room: 'Room 13' });
  });

  it('have supplies that lead to expect what was read at upkeep', () => {
    let compared = 0;
    for (const site of sites) {
      const { headEnd, trunks } = drawingOf({ siteKey: site.key });
      const recorded = recordedElectrical(headEnd, headEnd);
      if ('missing' in recorded) continue;
      const { sourceVolts, sourceOhms, stationAmps, coreOhmsPerKm } = recorded.electrical;
      const supply = { sourceVolts, sourceOhms, loopOhmsPerMetre: (2 * coreOhmsPerKm) / 1000 };
      const load = { kind: 'amps', amps: stationAmps } as const;
      const upkeep = visits.filter(
        ({ siteKey, kind }) => siteKey === site.key && kind === 'planned',
      );
      for (const { trunk, nodes } of trunks) {
        const at = new Map(nodes.map(({ node }, n) => [node, n]));
        const stations = nodes.map(({ fedFrom, cableMetres, kind }) => ({
          parent: fedFrom === null ? null : at.get(fedFrom)!,
          cableMetres,
          ...(kind === 'station' && { load }),
        }));
        const expected = surveyTrunk({ ...supply, nodes: stations }, 0).stations;
        for (const reading of upkeep.flatMap(({ readings }) => readings)) {
          if (reading.kind !== 'supply-volts' || reading.trunk !== trunk) continue;
          const { volts } = expected.find(({ node }) => node === at.get(reading.node!))!;
          const read = Number(reading.entered.replace(',', '.'));
          expect([site.key, reading.node, Math.abs(read - volts) < 0.5]).toEqual([
            site.key,
            reading.node,
            true,
          ]);
          compared++;
        }
      }
    }
    expect(compared).toBeGreaterThanOrEqual(12);
  });
});

const HEARD = {
  id: '',
  saidBy: '',
  saidByKind: 'office',
  how: 'gone-through',
  observedAt: new Date(0),
  period: 0,
  withdrawalId: null,
} as const;

function expectOnDrawing(ticket: SeedTicket, { place, mode }: { place: Place; mode: string }) {
  switch (place.kind) {
    case 'span':
      expect(nodeOf(ticket, place.trunk, place.to)).toMatchObject({ fedFrom: place.from });
      return expect(SPAN_MODES).toContain(mode);
    case 'station':
      expect(nodeOf(ticket, place.trunk, place.node)).toMatchObject({ kind: 'station' });
      return expect(STATION_MODES).toContain(mode);
    case 'port':
      return expect(PORT_MODES).toContain(mode);
    case 'head-end':
      return expect(HEAD_END_MODES).toContain(mode);
  }
}

function expectMovesAllowed({ daysAgo, moves }: SeedVisit) {
  let state: VisitState = 'planned';
  let last = '';
  for (const { to, time, by } of moves) {
    expect(visitMovesFrom(state)).toContain(to);
    expect(names).toContain(by);
    expect(time >= last).toBe(true);
    state = to as VisitState;
    last = time;
  }
  expect(moves.length > 0).toBe(daysAgo > 0);
}

/** What the locator makes of a ticket's evidence, half a year after all was last proven good. */
function placesOf(ticket: SeedTicket) {
  const functions = [...new Set(ticket.observations.map((one) => one.function))];
  return locate({
    trunks: drawingOf(ticket).trunks.map(({ trunk, nodes }) => ({
      id: trunk,
      nodes: nodes.map(({ node, kind, fedFrom, cableMetres }) => ({
        id: node,
        kind,
        fedFrom,
        cableMetres,
      })),
    })),
    exposureDays: 180,
    observations: ticket.observations.flatMap(({ outcome, ...point }) =>
      outcome === 'not-checked'
        ? []
        : [{ ...point, outcome, informant: { id: 'caller', kind: ticket.saidBy.kind } }],
    ),
    ...(ticket.how === 'volunteered' && { unmentioned: { reportRate: 0.3, functions } }),
  }).places;
}
