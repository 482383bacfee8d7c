import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { demoEmail, DEMO_PASSWORD } from './add-demo-accounts.js';
import { ApiClient } from './api-client.js';
import { Calendar } from './calendar.js';
import type { Seeds, SeedVisit } from './seed-files.js';

/** Each visit is signed for by somebody of the site, on the phone of the technician who was there, when it ended. */
export async function signVisits(
  app: NestFastifyApplication,
  { people, sites, visits }: Seeds,
  now: Date,
): Promise<void> {
  const calendar = new Calendar(now);
  const zones = new Map(sites.map(({ key, zone }) => [key, zone]));
  const endedAt = ({ siteKey, daysAgo, moves }: SeedVisit) =>
    calendar.at(daysAgo, moves.at(-1)?.time, zones.get(siteKey) ?? 'Etc/UTC');
  for (const { id: technicianId, name } of people) {
    const signed = visits.filter((one) => one['technicianId'] === technicianId && one.signature);
    if (signed.length === 0) continue;
    const api = await ApiClient.signIn(app, demoEmail(name), DEMO_PASSWORD);
    for (const visit of signed) {
      const signature = { ...visit.signature, signedAt: endedAt(visit) };
      await api.post(`/visits/${String(visit['id'])}/signatures`, signature);
    }
  }
}
