import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { useService } from '../parts/service-context.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { PasswordChanged } from '../parts/wire.js';

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
  const reasonOf = (field: string) => {
    const reason = failure?.reasonFor(field);
    return reason && `The password ${reason}.`;
  };
  return (
    <section>
      <h2>Another password</h2>
      <form onSubmit={submit} noValidate ref={form}>
        <TextField
          label="The password that you have"
          isHidden
          autocomplete="current-password"
          value={given.currentPassword}
          onValue={(currentPassword) => setGiven({ ...given, currentPassword })}
          error={reasonOf('/currentPassword')}
        />
        <TextField
          label="The new one"
          hint="At least 12 characters; several words that only you would put together do well."
          isHidden
          autocomplete="new-password"
          value={given.newPassword}
          onValue={(newPassword) => setGiven({ ...given, newPassword })}
          error={reasonOf('/newPassword')}
        />
        <FailureLine failure={failure} fields={['/currentPassword', '/newPassword']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          Change it
        </button>
      </form>
      <p role="status">
        {isDone && 'It is changed. Wherever else you were signed in, you are signed out.'}
      </p>
    </section>
  );
}
