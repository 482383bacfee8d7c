import { useEffect, useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { adoptLanguage } from '../parts/language.js';
import { ForgottenForm } from './forgotten-form.js';
import { SignInForm } from './sign-in-form.js';
import { SignedInPage } from './signed-in-page.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { SignedIn } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

type Shown =
  | { page: 'looking' }
  | { page: 'form'; note?: string }
  | { page: 'forgotten' }
  | { page: 'signed-in'; session: SignedIn }
  | { page: 'failed'; failure: Failure };

/** Lets people in by e-mail and password, or greets who is in already. */
export function SignInPage() {
  const [shown, setShown] = useState<Shown>({ page: 'looking' });
  const look = () => {
    setShown({ page: 'looking' });
    void findSession().then(setShown);
  };
  useEffect(look, []);
  switch (shown.page) {
    case 'looking':
      return <p role="status">{SIGN_IN_WORDS.oneMoment}</p>;
    case 'failed':
      return <FailedPage failure={shown.failure} onAgain={look} />;
    case 'forgotten':
      return <ForgottenForm onBack={() => setShown({ page: 'form' })} />;
    case 'signed-in':
      return (
        <SignedInPage session={shown.session} onOut={(note) => setShown({ page: 'form', note })} />
      );
    case 'form':
      return (
        <SignInForm
          note={shown.note}
          onIn={(session) => {
            const isOther = adoptLanguage(session.person.language);
            if (comeBack()) return;
            if (isOther) location.reload();
            else setShown({ page: 'signed-in', session });
          }}
          onForgotten={() => setShown({ page: 'forgotten' })}
        />
      );
  }
}

/** To where somebody was sent here from, if that was a page of ours. */
function comeBack(): boolean {
  const to = new URLSearchParams(location.search).get('to');
  if (to === null || !/^\/(desk|field|account)(\/|\?|$)/.test(to)) return false;
  location.assign(to);
  return true;
}

async function findSession(): Promise<Shown> {
  try {
    return { page: 'signed-in', session: await ask<SignedIn>('GET', '/session') };
  } catch (error) {
    if (!(error instanceof Failure)) throw error;
    return error.status === 401 ? { page: 'form' } : { page: 'failed', failure: error };
  }
}

function FailedPage({ failure, onAgain }: { failure: Failure; onAgain: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {SIGN_IN_WORDS.failed}
      </h1>
      <p>{failure.message}</p>
      <button type="button" class="main" onClick={onAgain}>
        {SIGN_IN_WORDS.again}
      </button>
    </section>
  );
}
