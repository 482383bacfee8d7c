import { useState } from 'preact/hooks';
import { AREAS } from '#app/access/scopes.js';
import { TicksField } from '../parts/choose-field.js';
import { FailureLine } from '../parts/failure-line.js';
import { PAGE_FORMATS } from '../parts/language.js';
import { useService } from '../parts/service-context.js';
import { Loaded } from '../parts/states.js';
import { TextField } from '../parts/text-field.js';
import { local } from '../parts/time-words.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useRead } from '../parts/use-read.js';
import { useSending } from '../parts/use-sending.js';
import type { NewOwnToken, OwnToken } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

const words = SIGN_IN_WORDS.tokens;

const SCOPES_IN_WORDS = AREAS.flatMap((area) => [
  { id: `${area}:read`, name: words.read(words.areas[area]) },
  { id: `${area}:write`, name: words.write(words.areas[area]) },
]);

function scopesInWords(scopes: readonly string[]): string {
  return PAGE_FORMATS.and(
    scopes.map((scope) => SCOPES_IN_WORDS.find(({ id }) => id === scope)?.name ?? scope),
  );
}

/** Programs that act as oneself: a token for each. */
export function OwnTokens() {
  const service = useService();
  const { id } = service.session.person;
  const read = useRead('tokens', () => service.read<{ items: OwnToken[] }>('/tokens'));
  const { isSending, failure, send } = useSending();
  const end = (tokenId: string) =>
    send(async () => {
      await service.send('DELETE', `/tokens/${tokenId}`);
      read.again();
    });
  return (
    <section>
      <h2>{words.title}</h2>
      <FailureLine failure={failure} />
      <Loaded read={read}>
        {({ items }) => {
          const own = items.filter(({ personId }) => personId === id);
          return (
            <ul class="plain">
              {own.length === 0 && <li>{words.none}</li>}
              {own.map(({ id: tokenId, name, scopes, lastUsedAt }) => (
                <li key={tokenId}>
                  <p>
                    <strong>{name}</strong>:{' '}
                    {words.line(scopesInWords(scopes), lastUsedAt && local(lastUsedAt))}{' '}
                    <button
                      type="button"
                      class="small"
                      aria-disabled={isSending}
                      onClick={() => end(tokenId)}
                    >
                      {words.end}
                      <span class="unseen"> {name}</span>
                    </button>
                  </p>
                </li>
              ))}
            </ul>
          );
        }}
      </Loaded>
      <NewToken onMade={read.again} />
    </section>
  );
}

function NewToken({ onMade }: { onMade: () => void }) {
  const service = useService();
  const [name, setName] = useState('');
  const [scopes, setScopes] = useState<string[]>([]);
  const [token, setToken] = useState<string>();
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    setToken(undefined);
    send(async () => {
      const asked = { body: { name, scopes } };
      setToken((await service.send<NewOwnToken>('POST', '/tokens', asked)).token);
      setName('');
      setScopes([]);
      onMade();
    });
  };
  return (
    <details>
      <summary>{words.make}</summary>
      <form onSubmit={submit} noValidate ref={form}>
        <TextField
          label={words.name}
          autocomplete="off"
          maxLength={200}
          value={name}
          onValue={setName}
          error={failure?.sentenceFor('/name')}
        />
        <TicksField
          legend={words.scopes}
          choices={SCOPES_IN_WORDS}
          chosen={scopes}
          onChosen={setScopes}
          error={failure?.sentenceFor('/scopes')}
        />
        <FailureLine failure={failure} fields={['/name', '/scopes']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {words.makeButton}
        </button>
      </form>
      {token !== undefined && (
        <p role="status">
          {words.once} <code class="breaks">{token}</code>
        </p>
      )}
    </details>
  );
}
