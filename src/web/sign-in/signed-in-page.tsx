import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { SignedIn } from '../parts/wire.js';

const ROLES: Record<SignedIn['person']['role'], string> = {
  owner: 'an owner: you see everything of your firm, and say who may do what',
  dispatcher: 'a dispatcher: you see every ticket and visit, and send people',
  'contract-manager': 'a contract manager: you see contracts, and what was promised and kept',
  technician: 'a technician: you see every ticket of the firm, and enter what you find',
  client: 'with a client: you see your own sites',
};

interface SignedInPageProps {
  session: SignedIn;
  onOut: (note: string) => void;
}

/** Who is in, and where one can go from here. */
export function SignedInPage({ session, onOut }: SignedInPageProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { isSending, failure, send } = useSending();
  const { person, csrfToken, endsAt } = session;
  const signOut = () =>
    send(async () => {
      try {
        await ask('DELETE', '/session', { csrfToken });
      } catch (error) {
        // It had ended already, which is what was asked for.
        if (!(error instanceof Failure && error.status === 401)) throw error;
      }
      onOut('You are signed out.');
    });
  const until = new Date(endsAt).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' });
  const field = (
    <li key="field">
      <a href="/field">On site</a>: today’s jobs and what to do next, also with no signal.
    </li>
  );
  const desk = (
    <li key="desk">
      <a href="/desk">The desk</a>: what is silent now, where it is, and who goes.
    </li>
  );
  // What somebody works with comes first.
  const places = person.role === 'technician' ? [field, desk] : [desk, field];
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        You are signed in, {person.name}
      </h1>
      <p>You are {ROLES[person.role]}.</p>
      <p>You stay signed in until {until} at the latest.</p>
      <h2>Where to go</h2>
      <ul>
        {person.role !== 'client' && places}
        <li>
          <a href="/account">Your account</a>: password, second step, where you are signed in,
          programs.
        </li>
        <li>
          <a href="/api/docs">The API, to read and to try</a>: everything that a program can ask, as
          your role allows it. You are signed in there too.
        </li>
        <li>
          School offices need no sign-in: they open the link or scan the code of their site’s
          poster.
        </li>
      </ul>
      <FailureLine failure={failure} />
      <button type="button" aria-disabled={isSending} onClick={signOut}>
        {isSending ? 'One moment…' : 'Sign out'}
      </button>
    </section>
  );
}
