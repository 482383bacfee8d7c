import type { ReadClient, ReadSite } from '../parts/wire.js';

export interface FoundSite {
  site: ReadSite;
  client: ReadClient | undefined;
}

/** At most so many are shown; typing more narrows them. */
const MOST = 8;

/** Sites of which every word that was typed is a part of name, address, client, contact or telephone number. */
export function findSites(
  typed: string,
  sites: readonly ReadSite[],
  clients: readonly ReadClient[],
): FoundSite[] {
  const words = typed.trim().toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return [];
  const byId = new Map(clients.map((client) => [client.id, client]));
  return sites
    .map((site) => ({ site, client: byId.get(site.clientId) }))
    .filter(({ site, client }) => {
      const number = digits(client?.phone);
      const text = [site.name, site.address, client?.name, client?.contactName]
        .join(' ')
        .toLowerCase();
      return words.every((word) => {
        const asNumber = digits(word);
        return text.includes(word) || (asNumber.length > 2 && number.includes(asNumber));
      });
    })
    .sort((a, b) => a.site.name.localeCompare(b.site.name))
    .slice(0, MOST);
}

function digits(text: string | null | undefined): string {
  return (text ?? '').replace(/\D/g, '');
}
