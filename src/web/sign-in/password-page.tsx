import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { PasswordForm } from './password-form.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { PasswordChanged } from '../parts/wire.js';

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

const NO_LINK = 'Please open the link in your mail once more.';

function OverLinkPage({ reason }: { reason: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        This link cannot be used
      </h1>
      <p>{reason}</p>
      <p>
        An invitation works once and for seven days, a link for a new password once and for an hour.
        Whoever looks after the sign-ins of your firm can have another one sent to you.
      </p>
    </section>
  );
}

function DonePage({ tokens }: PasswordChanged) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        Your password is set
      </h1>
      <p>Wherever you were signed in before, you are signed out.</p>
      {tokens.length > 0 && (
        <>
          <h2>What still acts as you</h2>
          <p>
            These programs have a token of yours and go on without your password. If you do not know
            one of them, sign in and take its token away.
          </p>
          <ul>
            {tokens.map(({ id, name }) => (
              <li key={id}>{name}</li>
            ))}
          </ul>
        </>
      )}
      <h2>How to go on</h2>
      <ul>
        <li>
          <a href="/sign-in">Sign in</a> with your e-mail address and the password.
        </li>
        <li>
          <a href="/api/docs">The API, to read and to try</a> shows what your work in the firm lets
          you do.
        </li>
        <li>
          In <a href="/account">your account</a> you can switch on a second step, which every owner
          should have.
        </li>
      </ul>
    </section>
  );
}
