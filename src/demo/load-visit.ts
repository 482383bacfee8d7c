import type { ApiClient } from './api-client.js';
import type { Calendar } from './calendar.js';
import type { SeedSite, SeedVisit } from './seed-files.js';

const CONFIRMED = ['in-the-past', 'outside-hours'];

/** Takes one of the demo's visits through its moves and readings. */
export async function loadVisit(
  api: ApiClient,
  site: SeedSite,
  seed: SeedVisit,
  ticketIds: ReadonlyMap<string, string>,
  calendar: Calendar,
): Promise<void> {
  const { id, kind, technicianId, purpose, upkeep, daysAgo, moved } = seed;
  const on = calendar.day(daysAgo, site.zone);
  const named = seed.ticketKeys.map((key) => ticketIds.get(key));
  const planned = {
    id,
    siteId: site.id,
    kind,
    on: moved === undefined ? on : calendar.day(moved.fromDaysAgo, site.zone),
    technicianId: moved?.technicianId ?? technicianId,
    purpose,
    upkeep,
    ticketIds: named,
    confirmed: CONFIRMED,
  };
  await api.post('/visits', planned);
  if (moved !== undefined) {
    const { reason } = moved;
    const patch = { on, technicianId, reason, confirmed: CONFIRMED };
    await api.patch(`/visits/${String(id)}`, patch, 1);
  }
  for (const { time, ...move } of seed.moves) {
    const at = calendar.at(daysAgo, time, site.zone);
    // What was heard is entered once the visit has ended.
    const confirmed = move['to'] === 'done' ? ['not-all-heard'] : [];
    await api.post(`/visits/${String(id)}/moves`, { ...move, at, confirmed });
  }
  for (const { time, ...reading } of seed.readings) {
    const takenAt = calendar.at(daysAgo, time, site.zone);
    await api.post(`/visits/${String(id)}/readings`, { ...reading, takenAt });
  }
  if (seed.heard !== undefined) await addWalkTest(api, site, seed, calendar);
}

interface Checklist {
  rooms: { trunk: string; node: string; functions: { function: string }[] }[];
}

/** By whoever was there, when the visit ended. */
async function addWalkTest(
  api: ApiClient,
  site: SeedSite,
  { id, daysAgo, heard, moves }: SeedVisit,
  calendar: Calendar,
): Promise<void> {
  const path = `/visits/${String(id)}`;
  const { rooms } = await api.get<Checklist>(`${path}/checklist`);
  const gone = rooms.slice(0, heard === 'half' ? Math.ceil(rooms.length / 2) : rooms.length);
  const observations = gone.flatMap(({ trunk, node, functions }) =>
    functions.map((one) => ({ trunk, node, function: one.function, outcome: 'works' })),
  );
  const last = moves.at(-1);
  const testedAt = calendar.at(daysAgo, last?.time, site.zone);
  await api.post(`${path}/walk-tests`, { testedBy: last?.['by'], testedAt, observations });
}
