import { useId } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { uuidv7 } from 'uuidv7';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadClient, ReadSite } from '../../parts/wire.js';
import type { SitesRead } from './sites-page.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { SITE_WORDS } from '../words/words.js';

const NEW_SITE = 'new site';

/** What was entered of a new site; a client that is not known yet is made first. */
function useAddingSite(onAdded: () => void) {
  const service = useService();
  const { route } = useLocation();
  const {
    draft: given,
    give,
    settle,
  } = useDraft(NEW_SITE, {
    name: '',
    clientId: '',
    client: '',
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  });
  const { isSending, failure, send } = useSending();
  const add = (event: Event) => {
    event.preventDefault();
    send(async () => {
      const { name, zone } = given;
      let { clientId } = given;
      if (clientId === '') {
        const body = { id: uuidv7(), name: given.client };
        clientId = (await service.send<ReadClient>('POST', '/clients', { body })).id;
        give({ clientId });
        onAdded();
      }
      const body = { id: uuidv7(), clientId, name, zone };
      const site = await service.send<ReadSite>('POST', '/sites', { body });
      settle();
      route(`/desk/sites/${site.id}`);
    });
  };
  return { given, give, add, isSending, failure };
}

/** A new site, of a client that is known or not. */
export function AddSite({ clients, onAdded }: SitesRead & { onAdded: () => void }) {
  const id = useId();
  const isBegun = useIsBegun(NEW_SITE);
  const { given, give, add, isSending, failure } = useAddingSite(onAdded);
  return (
    <details class="narrow" open={isBegun}>
      <summary>{SITE_WORDS.add}</summary>
      <form onSubmit={add} noValidate>
        <TextField
          label={SITE_WORDS.name}
          autocomplete="off"
          value={given.name}
          onValue={(name) => give({ name })}
          error={given.clientId === '' ? undefined : failure?.sentenceFor('/name')}
        />
        <p class="field">
          <label for={id}>{SITE_WORDS.client}</label>
          <select
            id={id}
            value={given.clientId}
            onChange={(event) => give({ clientId: event.currentTarget.value })}
          >
            <option value="">{SITE_WORDS.newClient}</option>
            {clients.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </p>
        {given.clientId === '' && (
          <TextField
            label={SITE_WORDS.newClient}
            autocomplete="off"
            value={given.client}
            onValue={(client) => give({ client })}
            error={failure?.sentenceFor('/name')}
          />
        )}
        <TextField
          label={SITE_WORDS.zone}
          autocomplete="off"
          value={given.zone}
          onValue={(zone) => give({ zone })}
          error={failure?.sentenceFor('/zone')}
        />
        <FailureLine failure={failure} fields={['/name', '/zone']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {SITE_WORDS.addButton}
        </button>
      </form>
    </details>
  );
}
