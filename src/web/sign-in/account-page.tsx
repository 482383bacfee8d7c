import { FailureLine } from '../parts/failure-line.js';
import { ServiceContext, useService } from '../parts/service-context.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { signInAddress, useSession } from '../parts/use-session.js';
import { OwnSessions } from './own-sessions.js';
import { OwnTokens } from './own-tokens.js';
import { PasswordChange } from './password-change.js';
import { SecondStep } from './second-step.js';

/** What somebody may do about their own sign-in. */
export function AccountPage() {
  const session = useSession();
  switch (session.state) {
    case 'looking':
      return (
        <main>
          <p role="status">One moment…</p>
        </main>
      );
    case 'failed':
      return (
        <main>
          <h1>This did not work just now</h1>
          <FailureLine failure={session.failure} />
          <button type="button" class="main" onClick={session.again}>
            Try again
          </button>
        </main>
      );
    case 'out':
      return (
        <main>
          <h1>{session.wasIn ? 'Your session is over' : 'Please sign in'}</h1>
          <p>Your account is shown to you alone.</p>
          <p>
            <a class="button" href={signInAddress()}>
              Sign in
            </a>
          </p>
        </main>
      );
    case 'in':
      return (
        <ServiceContext.Provider value={session.service}>
          <Account />
        </ServiceContext.Provider>
      );
  }
}

function Account() {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { name, role } = useService().session.person;
  return (
    <main>
      <h1 tabIndex={-1} ref={heading}>
        Your account, {name}
      </h1>
      <p>
        <a href="/sign-in">Where you can go</a>
        {role !== 'client' && (
          <>
            {' · '}
            <a href="/desk">The desk</a>
          </>
        )}
      </p>
      <PasswordChange />
      <SecondStep />
      <OwnSessions />
      {role !== 'client' && <OwnTokens />}
    </main>
  );
}
