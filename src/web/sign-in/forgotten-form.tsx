import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

/** Asks for a link to choose a new password by. */
export function ForgottenForm({ onBack }: { onBack: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const words = SIGN_IN_WORDS.forgotten;
  const [email, setEmail] = useState('');
  const [isSent, setSent] = useState(false);
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const wrong = lacking ?? failure;
  const form = useFocusOnWrong<HTMLFormElement>(wrong);
  if (isSent) return <SentLinkPage onBack={onBack} />;
  const submit = (event: Event) => {
    event.preventDefault();
    const missing = email.trim() === '' ? NO_EMAIL : undefined;
    setLacking(missing);
    if (missing !== undefined) return;
    send(async () => {
      await ask('POST', '/password-resets', { body: { email } });
      setSent(true);
    });
  };
  return (
    <form class="card" onSubmit={submit} noValidate ref={form}>
      <h1 tabIndex={-1} ref={heading}>
        {words.title}
      </h1>
      <p>{words.what}</p>
      <TextField
        label={SIGN_IN_WORDS.email}
        autocomplete="username"
        value={email}
        onValue={setEmail}
        maxLength={320}
        error={wrong?.sentenceFor('/email')}
      />
      <FailureLine failure={wrong} fields={['/email']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? SIGN_IN_WORDS.sending : words.send}
      </button>
      <p>
        <button type="button" onClick={onBack}>
          {words.back}
        </button>
      </p>
    </form>
  );
}

const NO_EMAIL = new Failure(422, '', [{ field: '/email', reason: SIGN_IN_WORDS.form.noEmail }]);

function SentLinkPage({ onBack }: { onBack: () => void }) {
  const words = SIGN_IN_WORDS.forgotten;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {words.sentTitle}
      </h1>
      <p>{words.sent}</p>
      <button type="button" onClick={onBack}>
        {words.back}
      </button>
    </section>
  );
}
