import type { ApiClient } from './api-client.js';
import type { Calendar } from './calendar.js';
import type { SeedSite, SeedVisit } from './seed-files.js';

/** Takes one of the demo's visits through its moves and readings. */
export async function loadVisit(
  api: ApiClient,
  site: SeedSite,
  seed: SeedVisit,
  ticketIds: ReadonlyMap<string, string>,
  calendar: Calendar,
): Promise<void> {
  const { id, kind, technicianId, purpose, upkeep, daysAgo } = seed;
  const on = calendar.day(daysAgo, site.zone);
  const named = seed.ticketKeys.map((key) => ticketIds.get(key));
  const planned = {
    id,
    siteId: site.id,
    kind,
    on,
    technicianId,
    purpose,
    upkeep,
    ticketIds: named,
    confirmed: ['in-the-past', 'outside-hours'],
  };
  await api.post('/visits', planned);
  for (const { time, ...move } of seed.moves) {
    const at = calendar.at(daysAgo, time, site.zone);
    await api.post(`/visits/${String(id)}/moves`, { ...move, at });
  }
  for (const { time, ...reading } of seed.readings) {
    const takenAt = calendar.at(daysAgo, time, site.zone);
    await api.post(`/visits/${String(id)}/readings`, { ...reading, takenAt });
  }
}
