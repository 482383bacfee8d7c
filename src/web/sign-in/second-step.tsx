import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { useService } from '../parts/service-context.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { NewSecondStep, RecoveryCodes } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

/** Switches the second step on, in three strokes, or off. */
export function SecondStep() {
  const [made, setMade] = useState<NewSecondStep>();
  const [codes, setCodes] = useState<string[]>();
  return (
    <section>
      <h2>{SIGN_IN_WORDS.secondStep.title}</h2>
      <p class="hint">{SIGN_IN_WORDS.secondStep.what}</p>
      {codes !== undefined ? (
        <Codes codes={codes} />
      ) : made === undefined ? (
        <>
          <PasswordAgain onMade={setMade} />
          <SwitchOff />
        </>
      ) : (
        <FirstCode made={made} onCodes={setCodes} />
      )}
    </section>
  );
}

function PasswordAgain({ onMade }: { onMade: (made: NewSecondStep) => void }) {
  const words = SIGN_IN_WORDS.secondStep;
  const service = useService();
  const [password, setPassword] = useState('');
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    send(async () => {
      onMade(await service.send<NewSecondStep>('POST', '/second-step', { body: { password } }));
    });
  };
  return (
    <details>
      <summary>{words.on}</summary>
      <form onSubmit={submit} noValidate ref={form}>
        <TextField
          label={words.password}
          isHidden
          autocomplete="current-password"
          value={password}
          onValue={setPassword}
          error={failure?.sentenceFor('/password')}
        />
        <FailureLine failure={failure} fields={['/password']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {words.goOn}
        </button>
      </form>
    </details>
  );
}

interface FirstCodeProps {
  made: NewSecondStep;
  onCodes: (codes: string[]) => void;
}

function FirstCode({ made, onCodes }: FirstCodeProps) {
  const words = SIGN_IN_WORDS.secondStep;
  const service = useService();
  const [code, setCode] = useState('');
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    send(async () => {
      const asked = { body: { code } };
      onCodes(
        (await service.send<RecoveryCodes>('POST', '/second-step/confirm', asked)).recoveryCodes,
      );
    });
  };
  return (
    <form onSubmit={submit} noValidate ref={form}>
      <p>{words.scan}</p>
      <img
        alt={words.qr}
        class="qr"
        width={240}
        height={240}
        src={`data:image/svg+xml,${encodeURIComponent(made.qrSvg)}`}
      />
      <p>
        {words.onThisPhone} <a href={made.uri}>{words.openApp}</a>. {words.orType}{' '}
        <code class="breaks">{made.secret}</code>
      </p>
      <TextField
        label={words.code}
        isFirst
        autocomplete="one-time-code"
        maxLength={100}
        value={code}
        onValue={setCode}
        error={failure?.sentenceFor('/code')}
      />
      <FailureLine failure={failure} fields={['/code']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {words.on}
      </button>
    </form>
  );
}

function Codes({ codes }: { codes: string[] }) {
  return (
    <>
      <p role="status">{SIGN_IN_WORDS.secondStep.isOn}</p>
      <ul class="codes">
        {codes.map((code) => (
          <li key={code}>
            <code>{code}</code>
          </li>
        ))}
      </ul>
      <button type="button" class="main" onClick={() => print()}>
        {SIGN_IN_WORDS.secondStep.print}
      </button>
    </>
  );
}

function SwitchOff() {
  const words = SIGN_IN_WORDS.secondStep;
  const service = useService();
  const [given, setGiven] = useState({ password: '', code: '' });
  const [isOff, setOff] = useState(false);
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    send(async () => {
      await service.send('POST', '/second-step/end', { body: given });
      setGiven({ password: '', code: '' });
      setOff(true);
    });
  };
  return (
    <details>
      <summary>{words.off}</summary>
      <form onSubmit={submit} noValidate ref={form}>
        <TextField
          label={words.offPassword}
          isHidden
          autocomplete="current-password"
          value={given.password}
          onValue={(password) => setGiven({ ...given, password })}
          error={failure?.sentenceFor('/password')}
        />
        <TextField
          label={words.offCode}
          autocomplete="one-time-code"
          maxLength={100}
          value={given.code}
          onValue={(code) => setGiven({ ...given, code })}
          error={failure?.sentenceFor('/code')}
        />
        <FailureLine failure={failure} fields={['/password', '/code']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {words.off}
        </button>
      </form>
      <p role="status">{isOff && words.isOff}</p>
    </details>
  );
}
