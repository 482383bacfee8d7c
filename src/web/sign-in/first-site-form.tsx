import { useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import { FailureLine } from '../parts/failure-line.js';
import type { Service } from '../parts/service.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { ReadClient, ReadSite } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

/** What was entered; ids are kept, so that what arrived is not made twice. */
function useFirstSite(service: Service) {
  const [ids] = useState(() => ({ client: uuidv7(), site: uuidv7() }));
  const [isClientMade, setClientMade] = useState(false);
  const [given, setGiven] = useState({
    name: '',
    client: '',
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  });
  const { isSending, failure, send } = useSending();
  const submit = (event: Event) => {
    event.preventDefault();
    send(async () => {
      if (!isClientMade) {
        const body = { id: ids.client, name: given.client };
        await service.send<ReadClient>('POST', '/clients', { body });
        setClientMade(true);
      }
      const { name, zone } = given;
      const body = { id: ids.site, clientId: ids.client, name, zone };
      const site = await service.send<ReadSite>('POST', '/sites', { body });
      location.assign(`/desk/sites/${site.id}`);
    });
  };
  return { given, give: setGiven, isClientMade, isSending, failure, submit };
}

/** The first site, and whose it is; its sheet goes in on its own place. */
export function FirstSiteForm({ service }: { service: Service }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { given, give, isClientMade, isSending, failure, submit } = useFirstSite(service);
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const words = SIGN_IN_WORDS.firstStart;
  const wrongName = failure?.sentenceFor('/name');
  return (
    <form class="card" onSubmit={submit} noValidate ref={form}>
      <h1 tabIndex={-1} ref={heading}>
        {words.siteTitle}
      </h1>
      <p>{words.siteWhat}</p>
      <TextField
        label={words.client}
        autocomplete="off"
        maxLength={200}
        value={given.client}
        onValue={(client) => give({ ...given, client })}
        error={isClientMade ? undefined : wrongName}
      />
      <TextField
        label={words.site}
        autocomplete="off"
        maxLength={200}
        value={given.name}
        onValue={(name) => give({ ...given, name })}
        error={isClientMade ? wrongName : undefined}
      />
      <TextField
        label={words.zone}
        autocomplete="off"
        value={given.zone}
        onValue={(zone) => give({ ...given, zone })}
        error={failure?.sentenceFor('/zone')}
      />
      <FailureLine failure={failure} fields={['/name', '/zone']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? SIGN_IN_WORDS.oneMoment : words.add}
      </button>
      <p>
        <a href="/desk">{words.later}</a>
      </p>
    </form>
  );
}
