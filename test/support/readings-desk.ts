import { drawSite, row } from './draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './test-app.js';

export const OFFICE = { saidBy: { name: 'Mara Quill', kind: 'office' } };
export const ILVO = { name: 'Ilvo Marsh', kind: 'technician' };
export const SUPPLY = { supplyVolts: 24, supplyOhms: 0.2, stationAmps: 0.08, coreOhmsPerKm: 18.1 };
export const UNKNOWN = '01900000-0000-7000-8000-00000000dead';

/** Six rooms on trunk A and two on B. */
export const TRUNKS = [row('A', 6), row('B', 2)];

/** Rooms 1 and 2 work, 5 and 6 are silent; nobody knows of 3 and 4. */
export const HEARD = [1, 2, 5, 6].map((room) => {
  const outcome = room < 3 ? 'works' : 'fails';
  return { trunk: 'A', node: `A${room}`, function: 'announcement', outcome };
});

export const volts = (node: string, read: number) => {
  return { kind: 'supply-volts', trunk: 'A', node, volts: read, uncertaintyVolts: 0.05 };
};
export const continuity = (from: string | null, to: string, passes: boolean) => {
  return { kind: 'continuity', trunk: 'A', from, to, cores: ['supply', 'return'], passes };
};

/** P(something at the span that feeds the node is faulty). */
export const spanTo = (location: { result: { places: never[] } }, to: string): number =>
  location.result.places.find(
    ({ place }: { place: { kind: string; to?: string } }) =>
      place.kind === 'span' && place.to === to,
  )!['probability'];

/** A site whose supply is known, and a technician who is sent there and takes readings. */
export class ReadingsDesk {
  test!: TestApp;
  technician!: TestPerson;
  siteId!: string;

  readonly start = async (): Promise<void> => {
    this.test = await buildTestApp({ jobsRest: true });
    this.technician = await this.test.addPerson('technician', { name: 'Ilvo Marsh' });
    this.siteId = await this.drawnSite(SUPPLY);
  };

  readonly close = () => this.test.close();

  /** A site where the technician has a visit. */
  readonly drawnSite = async (headEnd: object): Promise<string> => {
    const siteId = await drawSite(this.test, TRUNKS, headEnd);
    const visit = { siteId, kind: 'planned', on: '2026-03-02', purpose: 'Upkeep' };
    await this.test.http
      .post('/api/v1/visits')
      .send({ ...visit, upkeep: true, technicianId: this.technician.id })
      .expect(201);
    return siteId;
  };

  /** A ticket about the trouble; closes what was open before, for reports join it. */
  readonly open = async (site = this.siteId): Promise<string> => {
    const { http } = this.test;
    const { body: before } = await http.get(`/api/v1/tickets?site=${site}&open=true`);
    for (const { id } of before.items) await this.move(id, 'closed').expect(201);
    return this.reported(HEARD, site);
  };

  /** One about trunk B, so that it stays apart. */
  readonly otherTicket = () =>
    this.reported([{ trunk: 'B', node: 'B2', function: 'bell', outcome: 'fails' }]);

  /** The ticket that a report opens or joins. */
  readonly reported = async (observations: object[], site = this.siteId): Promise<string> => {
    const report = { ...OFFICE, how: 'gone-through', observations };
    const path = `/api/v1/sites/${site}/reports`;
    const { body } = await this.test.http.post(path).send(report).expect(201);
    return body.tickets[0].id;
  };

  readonly move = (ticketId: string, to: string) =>
    this.test.http
      .post(`/api/v1/tickets/${ticketId}/moves`)
      .send({ ...OFFICE, to, reason: 'For the test' });

  readonly merge = async (ticketId: string, into: string) =>
    (
      await this.test.http
        .post(`/api/v1/tickets/${ticketId}/merge`)
        .send({ ...OFFICE, into })
        .expect(201)
    ).body;

  /** By the technician; a reading of anybody else is written down by an owner, who may name whom it is of. */
  readonly take = (ticketId: string, reading: object, more: object = {}) =>
    ('takenBy' in more ? this.test.http : this.technician.http)
      .post(`/api/v1/tickets/${ticketId}/readings`)
      .send({ takenBy: ILVO, reading, ...more });

  /** The id of a reading that is taken. */
  readonly taken = async (ticketId: string, reading: object, more: object = {}): Promise<string> =>
    (await this.take(ticketId, reading, more).expect(201)).body.readings.at(-1).id;

  readonly withdraw = (ticketId: string, readingId: string, more: object = {}, by?: TestPerson) =>
    (by ?? this.technician).http
      .post(`/api/v1/tickets/${ticketId}/readings/${readingId}/withdraw`)
      .send({ saidBy: ILVO, reason: 'Read in Room 5', ...more });

  /** What the technician reads of a ticket. */
  readonly read = async (ticketId: string, path = '') =>
    (await this.technician.http.get(`/api/v1/tickets/${ticketId}${path}`).expect(200)).body;

  readonly locationOf = (ticketId: string) => this.read(ticketId, '/location');
}
