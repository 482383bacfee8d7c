import { useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

/** As the service has it, which judges in the end. */
const LENGTH = { min: 12, max: 200 };

interface PasswordFormProps {
  choose: (password: string, endTokens: boolean) => Promise<void>;
  /** The link was used or is too old. */
  onOver: (reason: string) => void;
}

export function PasswordForm({ choose, onOver }: PasswordFormProps) {
  const [password, setPassword] = useState('');
  const [isShown, setShown] = useState(false);
  const [endTokens, setEndTokens] = useState(false);
  const [refusal, setRefusal] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const wrong = refusal ?? failure;
  const form = useFocusOnWrong<HTMLFormElement>(wrong);
  const submit = (event: Event) => {
    event.preventDefault();
    const lacking = refuseLength(password);
    setRefusal(lacking);
    if (lacking !== undefined) return;
    send(async () => {
      try {
        await choose(password, endTokens);
      } catch (error) {
        if (error instanceof Failure && error.status === 401) onOver(error.message);
        throw error;
      }
    });
  };
  const words = SIGN_IN_WORDS.choose;
  const reason = wrong?.reasonFor('/password');
  return (
    <form class="card" onSubmit={submit} noValidate ref={form}>
      <h1>{words.title}</h1>
      <ul>
        <li>{words.length(LENGTH.min)}</li>
        <li>{words.notCommon}</li>
        <li>{words.notYours}</li>
      </ul>
      <TextField
        label={words.label}
        isHidden={!isShown}
        autocomplete="new-password"
        value={password}
        onValue={setPassword}
        error={reason && SIGN_IN_WORDS.thePassword(reason)}
      />
      <Tick label={words.show} isOn={isShown} onChange={setShown} />
      <Tick label={words.endTokens} isOn={endTokens} onChange={setEndTokens} />
      <FailureLine failure={failure} fields={['/password']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? SIGN_IN_WORDS.sending : words.set}
      </button>
    </form>
  );
}

interface TickProps {
  label: string;
  isOn: boolean;
  onChange: (isOn: boolean) => void;
}

function Tick({ label, isOn, onChange }: TickProps) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={isOn}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />{' '}
      {label}
    </label>
  );
}

function refuseLength(password: string): Failure | undefined {
  const words = SIGN_IN_WORDS.choose;
  const length = [...password].length;
  if (length >= LENGTH.min && length <= LENGTH.max) return undefined;
  const reason =
    length < LENGTH.min ? words.tooShort(length, LENGTH.min) : words.tooLong(length, LENGTH.max);
  return new Failure(422, '', [{ field: '/password', reason }]);
}
