import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { PasswordForm } from './password-form.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { PasswordChanged } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

/** Chooses a password by a link that was mailed. */
export function PasswordPage({ link }: { link: string | undefined }) {
  const [done, setDone] = useState<PasswordChanged>();
  const [over, setOver] = useState(link === undefined ? NO_LINK : undefined);
  if (done !== undefined) return <DonePage tokens={done.tokens} />;
  if (link === undefined || over !== undefined) return <OverLinkPage reason={over ?? NO_LINK} />;
  return (
    <PasswordForm
      onOver={setOver}
      choose={async (password, endTokens) => {
        const body = { link, password, endTokens };
        setDone(await ask<PasswordChanged>('POST', '/password-from-link', { body }));
      }}
    />
  );
}

const NO_LINK = SIGN_IN_WORDS.choose.noLink;

function OverLinkPage({ reason }: { reason: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {SIGN_IN_WORDS.choose.overTitle}
      </h1>
      <p>{reason}</p>
      <p>{SIGN_IN_WORDS.choose.over}</p>
    </section>
  );
}

function DonePage({ tokens }: PasswordChanged) {
  const words = SIGN_IN_WORDS.choose;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {words.doneTitle}
      </h1>
      <p>{words.done}</p>
      {tokens.length > 0 && (
        <>
          <h2>{words.tokensTitle}</h2>
          <p>{words.tokens}</p>
          <ul>
            {tokens.map(({ id, name }) => (
              <li key={id}>{name}</li>
            ))}
          </ul>
        </>
      )}
      <h2>{words.goOn}</h2>
      <ul>
        <li>
          <a href="/sign-in">{SIGN_IN_WORDS.signIn}</a> {words.signInWith}
        </li>
        <li>
          <a href="/api/docs">{SIGN_IN_WORDS.signedIn.api}</a> {words.api}
        </li>
        <li>
          <a href="/account">{SIGN_IN_WORDS.signedIn.account}</a> {words.account}
        </li>
      </ul>
    </section>
  );
}
