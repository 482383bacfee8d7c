import type { Desk, DeskTicket, ReadDayPlan, ReadSite, ReadWorkingTime } from '../../parts/wire.js';
import type { LatLong } from './project-places.js';

export interface MapRead {
  sites: ReadSite[];
  desk: Desk;
  technicians: ReadWorkingTime[];
  /** Of today; undefined: nobody has planned it. */
  plan: ReadDayPlan | undefined;
}

/** A site, with what is open there, what is due first first, and who comes today as the how-manieth. */
export interface MapSite {
  site: ReadSite;
  tickets: DeskTicket[];
  comes: { technician: string; order: number }[];
}

export type PlacedSite = MapSite & { at: LatLong };

export interface MapStart {
  technician: string;
  at: LatLong | null;
  /** Today's sites, in their order, as far as they are known. */
  goesTo: MapSite[];
}

export interface MapFacts {
  /** What is due first first, then by name. */
  placed: PlacedSite[];
  /** Nobody has entered where they lie. */
  unplaced: MapSite[];
  /** Those who are planned today or whose days begin somewhere. */
  starts: MapStart[];
}

export function mapFacts({ sites, desk, technicians, plan }: MapRead): MapFacts {
  const routes = plan?.routes ?? [];
  const nameOf = (id: string) => technicians.find(({ personId }) => personId === id)?.name ?? id;
  const all = new Map(
    sites.map((site) => {
      const tickets = desk.items.filter((ticket) => ticket.site.id === site.id);
      const comes = routes.flatMap(({ technicianId, jobs }) =>
        jobs.flatMap(({ siteId }, i) =>
          siteId === site.id ? [{ technician: nameOf(technicianId), order: i + 1 }] : [],
        ),
      );
      return [site.id, { site, tickets, comes }];
    }),
  );
  const inOrder = [...all.values()].sort(
    (a, b) => rank(desk, a) - rank(desk, b) || a.site.name.localeCompare(b.site.name),
  );
  return {
    placed: inOrder.flatMap((one) => {
      const at = storedPlace(one.site.latitude, one.site.longitude);
      return at === null ? [] : [{ ...one, at }];
    }),
    unplaced: inOrder.filter(({ site }) => storedPlace(site.latitude, site.longitude) === null),
    starts: technicians.flatMap(({ personId, name, startLatitude, startLongitude }) => {
      const at = storedPlace(startLatitude, startLongitude);
      const jobs = routes.find(({ technicianId }) => technicianId === personId)?.jobs ?? [];
      const goesTo = jobs.flatMap(({ siteId }) => all.get(siteId) ?? []);
      return at === null && goesTo.length === 0 ? [] : [{ technician: name, at, goesTo }];
    }),
  };
}

/** Where its first ticket stands on the desk; after all of them where nothing is silent. */
function rank({ items }: Desk, { tickets: [first] }: MapSite): number {
  return first === undefined ? items.length : items.indexOf(first);
}

export function storedPlace(latitude: number | null, longitude: number | null): LatLong | null {
  return latitude === null || longitude === null ? null : { latitude, longitude };
}
