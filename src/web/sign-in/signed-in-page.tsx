import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { DRAFT, keepIn } from '../parts/kept.js';
import { PAGE_LOCALE } from '../parts/language.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { SignedIn } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

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
      // Whoever comes next finds nothing half typed, in this window and on this phone.
      keepIn(() => sessionStorage).forget(DRAFT);
      keepIn(() => localStorage).forget(DRAFT);
      onOut(SIGN_IN_WORDS.signedIn.signedOut);
    });
  const words = SIGN_IN_WORDS.signedIn;
  const style = { dateStyle: 'long', timeStyle: 'short' } as const;
  const until = new Date(endsAt).toLocaleString(PAGE_LOCALE, style);
  const field = <PlaceItem key="field" to="/field" name={words.onSite} what={words.onSiteWhat} />;
  const desk = <PlaceItem key="desk" to="/desk" name={words.desk} what={words.deskWhat} />;
  // What somebody works with comes first.
  const places = person.role === 'technician' ? [field, desk] : [desk, field];
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {words.title(person.name)}
      </h1>
      <p>{words.roles[person.role]}</p>
      <p>{words.until(until)}</p>
      <h2>{words.places}</h2>
      <ul>
        {person.role !== 'client' && places}
        <PlaceItem to="/account" name={words.account} what={words.accountWhat} />
        <PlaceItem to="/api/docs" name={words.api} what={words.apiWhat} />
        <li>{words.offices}</li>
      </ul>
      <FailureLine failure={failure} />
      <button type="button" aria-disabled={isSending} onClick={signOut}>
        {isSending ? SIGN_IN_WORDS.oneMoment : words.signOut}
      </button>
    </section>
  );
}

function PlaceItem({ to, name, what }: { to: string; name: string; what: string }) {
  return (
    <li>
      <a href={to}>{name}</a>: {what}
    </li>
  );
}
