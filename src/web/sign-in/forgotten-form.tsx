import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';

/** Asks for a link to choose a new password by. */
export function ForgottenForm({ onBack }: { onBack: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
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
        Choose a new password
      </h1>
      <p>You will be mailed a link by which you choose one. It works once, and for an hour.</p>
      <TextField
        label="E-mail"
        autocomplete="username"
        value={email}
        onValue={setEmail}
        maxLength={320}
        error={wrong?.sentenceFor('/email')}
      />
      <FailureLine failure={wrong} fields={['/email']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? 'Sending…' : 'Send me a link'}
      </button>
      <p>
        <button type="button" onClick={onBack}>
          Back to signing in
        </button>
      </p>
    </form>
  );
}

const NO_EMAIL = new Failure(422, '', [{ field: '/email', reason: 'please enter your e-mail' }]);

function SentLinkPage({ onBack }: { onBack: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        Look into your mail
      </h1>
      <p>
        If somebody signs in with that address, a link is on its way. If none comes within some
        minutes, ask whoever looks after the sign-ins of your firm.
      </p>
      <button type="button" onClick={onBack}>
        Back to signing in
      </button>
    </section>
  );
}
