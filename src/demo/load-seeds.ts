import type { ApiClient } from './api-client.js';
import { Calendar } from './calendar.js';
import { loadContracts } from './load-contracts.js';
import { loadTicket } from './load-ticket.js';
import { loadVisit } from './load-visit.js';
import { MAIN_JOB, readSeedSheet, type Seeds, type SeedSite } from './seed-files.js';

/** Who is added last: where there is an owner, all else is there too. */
const LAST = 'owner';

/** Loads the demo through the API, as its users would; nothing if it is there already. Answers whether it did. */
export async function loadSeeds(
  api: ApiClient,
  seeds: Seeds,
  directory: string,
  now: Date,
  log: (line: string) => void,
): Promise<boolean> {
  if (await isLoaded(api, seeds)) return false;
  for (const person of seeds.people.filter(({ work }) => work !== LAST)) {
    await api.post('/people', person);
  }
  for (const { personId, ...time } of seeds.workingTimes) {
    await api.put(`/people/${personId}/working-time`, time, 0);
  }
  for (const { personId, parts } of seeds.vans) {
    await api.put(`/people/${personId}/van`, { parts }, 0);
  }
  for (const client of seeds.clients) await api.post('/clients', client);
  const sites = new Map<string, SeedSite>();
  for (const site of seeds.sites) {
    await loadSite(api, site, directory);
    sites.set(site.key, site);
  }
  log(`Loaded ${seeds.sites.length} sites from their as-built sheets.`);
  await loadContracts(api, seeds, sites, new Calendar(now));
  await loadPast(api, seeds, sites, new Calendar(now));
  for (const person of seeds.people.filter(({ work }) => work === LAST)) {
    await api.post('/people', person);
  }
  log(`Loaded ${seeds.tickets.length - 1} tickets and ${seeds.visits.length} visits.`);
  return true;
}

async function isLoaded(api: ApiClient, { people }: Seeds): Promise<boolean> {
  const sites = await api.get<{ items: unknown[] }>('/sites?limit=1');
  const owners = await api.get<{ items: { id: string }[] }>(`/people?work=${LAST}&limit=200`);
  const last = people.filter(({ work }) => work === LAST);
  const isThere = last.every(({ id }) => owners.items.some((owner) => owner.id === id));
  if (sites.items.length > 0 && !isThere) {
    throw new Error('The demo was loaded in part only: remove the data directory and start again.');
  }
  return sites.items.length > 0;
}

async function loadSite(api: ApiClient, site: SeedSite, directory: string): Promise<void> {
  const { key, headEnd, trunks: names, sheet, ...fields } = site;
  await api.post('/sites', fields);
  const path = `/sites/${site.id}/as-built`;
  const said = 'changedBy=Demo&reason=The%20first%20sheet';
  await api.putSheet(`${path}/sheet?${said}`, readSeedSheet(directory, site), 0);
  const record = await api.get<{ version: number; trunks: { trunk: string }[] }>(path);
  const trunks = record.trunks.map((trunk) => ({
    ...trunk,
    ...names.find((named) => named.trunk === trunk.trunk),
  }));
  const reason = 'Head-end and names of the trunks added';
  await api.put(path, { changedBy: 'Demo', reason, headEnd, trunks }, record.version);
}

/** The year before today, tickets oldest first, as it happened. */
async function loadPast(
  api: ApiClient,
  seeds: Seeds,
  sites: ReadonlyMap<string, SeedSite>,
  calendar: Calendar,
): Promise<void> {
  const siteOf = (key: string): SeedSite => {
    const site = sites.get(key);
    if (site === undefined) throw new Error(`The seeds name a site that is not there: ${key}`);
    return site;
  };
  const ticketIds = new Map<string, string>();
  const past = seeds.tickets.filter(({ key }) => key !== MAIN_JOB);
  for (const ticket of past.sort((a, b) => b.daysAgo - a.daysAgo)) {
    const site = siteOf(ticket.siteKey);
    ticketIds.set(ticket.key, await loadTicket(api, site, ticket, calendar));
  }
  for (const visit of seeds.visits) {
    await loadVisit(api, siteOf(visit.siteKey), visit, ticketIds, calendar);
  }
}
