import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { useService } from '../parts/service-context.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { PasswordChanged } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

const NOTHING = { currentPassword: '', newPassword: '' };

export function PasswordChange() {
  const service = useService();
  const [given, setGiven] = useState(NOTHING);
  const [isDone, setDone] = useState(false);
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    setDone(false);
    send(async () => {
      await service.send<PasswordChanged>('PUT', '/password', { body: given });
      setGiven(NOTHING);
      setDone(true);
    });
  };
  const words = SIGN_IN_WORDS.passwordChange;
  const reasonOf = (field: string) => {
    const reason = failure?.reasonFor(field);
    return reason && SIGN_IN_WORDS.thePassword(reason);
  };
  return (
    <section>
      <h2>{words.title}</h2>
      <form onSubmit={submit} noValidate ref={form}>
        <TextField
          label={words.current}
          isHidden
          autocomplete="current-password"
          value={given.currentPassword}
          onValue={(currentPassword) => setGiven({ ...given, currentPassword })}
          error={reasonOf('/currentPassword')}
        />
        <TextField
          label={words.next}
          hint={SIGN_IN_WORDS.passwordHint}
          isHidden
          autocomplete="new-password"
          value={given.newPassword}
          onValue={(newPassword) => setGiven({ ...given, newPassword })}
          error={reasonOf('/newPassword')}
        />
        <FailureLine failure={failure} fields={['/currentPassword', '/newPassword']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {words.change}
        </button>
      </form>
      <p role="status">{isDone && words.done}</p>
    </section>
  );
}
