import type { Language } from '#app/words/index.js';
import { FailureLine } from '../parts/failure-line.js';
import { LanguageChoice } from '../parts/language-choice.js';
import { useSending } from '../parts/use-sending.js';
import { ServiceContext, useService } from '../parts/service-context.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { signInAddress, useSession } from '../parts/use-session.js';
import { OwnNotices } from './own-notices.js';
import { OwnSessions } from './own-sessions.js';
import { OwnTokens } from './own-tokens.js';
import { PasswordChange } from './password-change.js';
import { SecondStep } from './second-step.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

const words = SIGN_IN_WORDS.account;

/** What somebody may do about their own sign-in. */
export function AccountPage() {
  const session = useSession();
  switch (session.state) {
    case 'looking':
      return (
        <main>
          <p role="status">{SIGN_IN_WORDS.oneMoment}</p>
        </main>
      );
    case 'failed':
      return (
        <main>
          <h1>{SIGN_IN_WORDS.failed}</h1>
          <FailureLine failure={session.failure} />
          <button type="button" class="main" onClick={session.again}>
            {SIGN_IN_WORDS.again}
          </button>
        </main>
      );
    case 'out':
      return (
        <main>
          <h1>{session.wasIn ? words.sessionOver : words.signInFirst}</h1>
          <p>{words.yours}</p>
          <p>
            <a class="button" href={signInAddress()}>
              {SIGN_IN_WORDS.signIn}
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

function OwnLanguage() {
  const service = useService();
  const { failure, send } = useSending();
  const keep = (language: Language) =>
    new Promise<void>((kept) => {
      send(async () => {
        await service.send('PUT', '/session/language', { body: { language } });
        kept();
      });
    });
  return (
    <section>
      <h2>{words.language}</h2>
      <p class="hint">{words.languageHint}</p>
      <LanguageChoice onChoose={keep} />
      <FailureLine failure={failure} />
    </section>
  );
}

function Account() {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { name, role } = useService().session.person;
  return (
    <main>
      <h1 tabIndex={-1} ref={heading}>
        {words.title(name)}
      </h1>
      <p>
        <a href="/sign-in">{words.places}</a>
        {role !== 'client' && (
          <>
            {' · '}
            <a href="/desk">{words.desk}</a>
          </>
        )}
      </p>
      <OwnLanguage />
      <PasswordChange />
      <SecondStep />
      <OwnNotices />
      <OwnSessions />
      {role !== 'client' && <OwnTokens />}
    </main>
  );
}
