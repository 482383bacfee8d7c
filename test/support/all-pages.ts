import { JobService } from '#app/jobs/job.service.js';

import { drawSite, row } from './draw-site.js';
import type { TestApp } from './test-app.js';

const DAY = '2026-03-04';
const LONG_NAME = 'Larkfield Lower School and Teachers’ Training Establishment';

/** Everything that has an address, for one who may see all of it. `{…}` is what was made for the test. */
export const PAGES = [
  '/account',
  '/sign-in',
  '/desk',
  '/desk/call',
  '/desk/tickets/{ticket}',
  `/desk/days/${DAY}`,
  '/desk/days/2026-03-05',
  '/desk/quarters/2026-03-02',
  '/desk/visits/new',
  '/desk/visits/{visit}',
  '/desk/map',
  '/desk/sites',
  '/desk/sites/{site}',
  '/desk/sites/{site}/poster',
  '/desk/sites/{site}/print',
  '/desk/sites/{site}/record',
  '/desk/sites/{site}/versions',
  '/desk/contracts',
  '/desk/contracts/new',
  '/desk/contracts/closed-days',
  '/desk/contracts/{contract}',
  '/desk/contracts/{contract}/review',
  '/desk/contracts/{contract}/next',
  '/desk/contracts/{contract}/correction',
  '/desk/calendar-links',
  '/desk/firm',
  '/desk/planning',
  '/desk/planning/{technician}',
  '/desk/planning/{technician}/van',
  '/desk/prices',
  '/desk/work-times',
  '/desk/nowhere',
  '/field',
  '/field/tickets/{ticket}',
  '/field/visits/{visit}',
  '/field/waiting',
  '/nowhere',
];

export const PAGES_FOR_ANYBODY = [
  '/sign-in',
  '/password',
  '/password#AAAA',
  '/first-start',
  '/way-out#AAAA',
  '/pass#{pass}',
  '/pass#AAAA',
  '/desk',
  '/account',
  '/field',
];

/** The address of one of them, with what was made for the test. */
export function addressOf(path: string, made: Readonly<Record<string, string>>): string {
  return path.replace(/\{(\w+)\}/, (_, name: string) => made[name]!);
}

/** A site with names that are long, a ticket on it with a visit, a contract, a day that is planned, a pass. */
export async function fillFirm(test: TestApp): Promise<Record<string, string>> {
  const post = async (path: string, body: object = {}, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const site = await drawSite(test, [row('A', 14), row('B', 3)]);
  const place = { name: LONG_NAME, latitude: 47.1, longitude: -28.4 };
  const { body: named } = await test.http
    .patch(`/api/v1/sites/${site}`)
    .set('If-Match', '"1"')
    .send(place)
    .expect(200);
  const contract = await post('contracts', {
    title: 'Upkeep of all announcements and bells, as agreed',
    clientId: named.clientId,
    siteIds: [site],
    from: '2026-01-01',
    until: '2027-01-01',
    kind: 'comprehensive',
    visitsPerYear: 2,
    feeMinor: 240000,
    currency: 'EUR',
    promises: [{ troubleClass: 'one-room', responseMinutes: 480, restoreMinutes: 960 }],
    coverage: { windows: [{ weekday: 1, from: '08:00', until: '17:00' }] },
  });
  const { tickets } = await post(`sites/${site}/reports`, {
    saidBy: { name: 'Mara Quill', kind: 'office' },
    how: 'gone-through',
    observations: [
      { trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' },
      { trunk: 'A', node: 'A5', function: 'bell', outcome: 'fails' },
    ],
  });
  const technician = await test.addPerson('technician', { name: 'Ilvo Marsh' });
  const hours = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:00' }));
  await test.http
    .put(`/api/v1/people/${technician.id}/working-time`)
    .set('If-Match', '"0"')
    .send({ hours, skills: [], startLatitude: 47.1, startLongitude: -28.4 })
    .expect(200);
  const parts = [
    { name: 'connectors', quantity: 40 },
    { name: 'station unit RS-2 with a loudspeaker for halls', quantity: 2 },
  ];
  await test.http
    .put(`/api/v1/people/${technician.id}/van`)
    .set('If-Match', '"0"')
    .send({ parts })
    .expect(200);
  const visit = await post('visits', {
    siteId: site,
    kind: 'call-out',
    on: DAY,
    purpose: 'Rooms silent',
    technicianId: technician.id,
    ticketIds: [tickets[0].id],
    confirmed: ['outside-hours'],
  });
  await post(`plans/days/${DAY}`);
  const pass = await post(`sites/${site}/passes`);
  await test.app.get(JobService).settle();
  const ids = {
    site,
    technician: technician.id,
    contract: contract.id,
    visit: visit.id,
    ticket: tickets[0].number,
  };
  return { ...ids, pass: pass.link.split('#')[1] };
}
