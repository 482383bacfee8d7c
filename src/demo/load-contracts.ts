import type { ApiClient } from './api-client.js';
import type { Calendar } from './calendar.js';
import type { SeedClosedTime, SeedContract, SeedSite, Seeds } from './seed-files.js';

/** Adds the demo's calendars, contracts and prices, before anything happens under them. */
export async function loadContracts(
  api: ApiClient,
  { contracts: { calendars, contracts, prices } }: Seeds,
  sites: ReadonlyMap<string, SeedSite>,
  calendar: Calendar,
): Promise<void> {
  const zone = [...sites.values()][0]?.zone ?? 'Etc/UTC';
  const days = (time: SeedClosedTime) => toDays(time, calendar, zone);
  for (const { times, ...fields } of calendars) {
    await api.post('/closed-calendars', { ...fields, times: times.map(days) });
  }
  for (const seed of contracts) await loadContract(api, seed, { sites, calendar, zone });
  await api.patch('/prices', prices, 0);
}

async function loadContract(
  api: ApiClient,
  seed: SeedContract,
  {
    sites,
    calendar,
    zone,
  }: { sites: ReadonlyMap<string, SeedSite>; calendar: Calendar; zone: string },
): Promise<void> {
  const { siteKeys, fromDaysAgo, days, renewal, coverage, ...fields } = seed;
  const closedDays = (coverage.closedDays ?? []).map((time) => toDays(time, calendar, zone));
  const contract = {
    ...fields,
    siteIds: siteKeys.map((key) => sites.get(key)?.id),
    from: calendar.day(fromDaysAgo, zone),
    until: calendar.day(fromDaysAgo - days, zone),
    coverage: { ...coverage, closedDays },
  };
  const { id } = await api.post<{ id: string }>('/contracts', contract);
  if (renewal !== undefined) await api.post(`/contracts/${id}/renewal`, renewal);
}

function toDays({ fromDaysAgo, days, name }: SeedClosedTime, calendar: Calendar, zone: string) {
  const until = calendar.day(fromDaysAgo - days, zone);
  return { from: calendar.day(fromDaysAgo, zone), until, name };
}
