import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { SignedIn } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

interface FirstOwnerFormProps {
  code: string;
  onIn: (session: SignedIn) => void;
  /** The code is used up. */
  onOver: (reason: string) => void;
}

const FIELDS = ['/name', '/email', '/password'];

export function FirstOwnerForm({ code, onIn, onOver }: FirstOwnerFormProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const [given, setGiven] = useState({ name: '', email: '', password: '' });
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    send(async () => {
      try {
        await ask('POST', '/first-start', { body: { code, ...given } });
      } catch (error) {
        if (error instanceof Failure && error.status === 401) onOver(error.message);
        throw error;
      }
      const { email, password } = given;
      onIn(await ask<SignedIn>('POST', '/session', { body: { email, password } }));
    });
  };
  const words = SIGN_IN_WORDS.firstStart;
  const reason = failure?.reasonFor('/password');
  return (
    <form class="card" onSubmit={submit} noValidate ref={form}>
      <h1 tabIndex={-1} ref={heading}>
        {words.title}
      </h1>
      <p>{words.what}</p>
      <TextField
        label={words.name}
        autocomplete="name"
        maxLength={200}
        value={given.name}
        onValue={(name) => setGiven({ ...given, name })}
        error={failure?.sentenceFor('/name')}
      />
      <TextField
        label={words.email}
        autocomplete="username"
        maxLength={320}
        value={given.email}
        onValue={(email) => setGiven({ ...given, email })}
        error={failure?.sentenceFor('/email')}
      />
      <TextField
        label={words.password}
        hint={SIGN_IN_WORDS.passwordHint}
        isHidden
        autocomplete="new-password"
        value={given.password}
        onValue={(password) => setGiven({ ...given, password })}
        error={reason && SIGN_IN_WORDS.thePassword(reason)}
      />
      <FailureLine failure={failure} fields={FIELDS} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? SIGN_IN_WORDS.oneMoment : words.begin}
      </button>
    </form>
  );
}
