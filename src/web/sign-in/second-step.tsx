import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { useService } from '../parts/service-context.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { NewSecondStep, RecoveryCodes } from '../parts/wire.js';

/** Switches the second step on, in three strokes, or off. */
export function SecondStep() {
  const [made, setMade] = useState<NewSecondStep>();
  const [codes, setCodes] = useState<string[]>();
  return (
    <section>
      <h2>Second step</h2>
      <p class="hint">
        With it, a code from your phone is asked for beside the password. Every owner should have
        it.
      </p>
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
      <summary>Switch it on</summary>
      <form onSubmit={submit} noValidate ref={form}>
        <TextField
          label="Your password, again"
          isHidden
          autocomplete="current-password"
          value={password}
          onValue={setPassword}
          error={failure?.sentenceFor('/password')}
        />
        <FailureLine failure={failure} fields={['/password']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          Go on
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
      <p>
        Scan this with the app on your phone that makes such codes, then enter the code it shows.
      </p>
      <img
        alt="The QR code for the app"
        class="qr"
        width={240}
        height={240}
        src={`data:image/svg+xml,${encodeURIComponent(made.qrSvg)}`}
      />
      <p>
        On this phone: <a href={made.uri}>open the app</a>. Or type this into it:{' '}
        <code class="breaks">{made.secret}</code>
      </p>
      <TextField
        label="The code"
        isFirst
        autocomplete="one-time-code"
        maxLength={100}
        value={code}
        onValue={setCode}
        error={failure?.sentenceFor('/code')}
      />
      <FailureLine failure={failure} fields={['/code']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        Switch it on
      </button>
    </form>
  );
}

function Codes({ codes }: { codes: string[] }) {
  return (
    <>
      <p role="status">
        It is on. Each of these codes lets you in once when the phone is gone; they are shown this
        once. Print them, or write them down.
      </p>
      <ul class="codes">
        {codes.map((code) => (
          <li key={code}>
            <code>{code}</code>
          </li>
        ))}
      </ul>
      <button type="button" class="main" onClick={() => print()}>
        Print
      </button>
    </>
  );
}

function SwitchOff() {
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
      <summary>Switch it off</summary>
      <form onSubmit={submit} noValidate ref={form}>
        <TextField
          label="The password"
          isHidden
          autocomplete="current-password"
          value={given.password}
          onValue={(password) => setGiven({ ...given, password })}
          error={failure?.sentenceFor('/password')}
        />
        <TextField
          label="A code of the phone, or a recovery code"
          autocomplete="one-time-code"
          maxLength={100}
          value={given.code}
          onValue={(code) => setGiven({ ...given, code })}
          error={failure?.sentenceFor('/code')}
        />
        <FailureLine failure={failure} fields={['/password', '/code']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          Switch it off
        </button>
      </form>
      <p role="status">{isOff && 'It is off: the password alone lets you in.'}</p>
    </details>
  );
}
