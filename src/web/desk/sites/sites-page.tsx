import { useEffect, useState } from 'preact/hooks';
import { Loaded } from '../../parts/states.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadClient, ReadSite } from '../../parts/wire.js';
import { AddSite } from './add-site.js';
import { findSites } from '../find-sites.js';
import { MAP_WORDS, SITE_WORDS } from '../words/words.js';

export interface SitesRead {
  sites: ReadSite[];
  clients: ReadClient[];
}

/** Every site of the firm. */
export function SitesPage() {
  const service = useService();
  useEffect(() => {
    document.title = SITE_WORDS.title;
  }, []);
  const isOffice = service.session.person.role !== 'technician';
  const read = useRead('all sites', async () => {
    const [sites, clients] = await Promise.all([
      service.list<ReadSite>('/sites'),
      isOffice ? service.list<ReadClient>('/clients') : { items: [] },
    ]);
    return { sites: sites.items, clients: clients.items };
  });
  return (
    <Loaded read={read}>
      {(known) => (
        <>
          <SiteList {...known} />
          {isOffice && <AddSite {...known} onAdded={read.again} />}
        </>
      )}
    </Loaded>
  );
}

function SiteList({ sites, clients }: SitesRead) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const [typed, setTyped] = useState('');
  const byName = [...sites].sort((a, b) => a.name.localeCompare(b.name));
  const shown =
    typed.trim() === ''
      ? byName.map((site) => ({ site, client: clients.find(({ id }) => id === site.clientId) }))
      : findSites(typed, sites, clients);
  return (
    <section class="narrow">
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {SITE_WORDS.title}
        </h1>
        <a href="/desk/map">{MAP_WORDS.toMap}</a>
      </div>
      <TextField
        label={SITE_WORDS.search}
        hint={SITE_WORDS.searchHint}
        autocomplete="off"
        value={typed}
        onValue={setTyped}
      />
      {sites.length === 0 && <p class="empty">{SITE_WORDS.none}</p>}
      <ul class="found">
        {shown.map(({ site, client }) => (
          <li key={site.id}>
            <a href={`/desk/sites/${site.id}`}>
              <strong>{site.name}</strong>
              <span>{[client?.name, site.address].filter(Boolean).join(', ')}</span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
