import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { LanguageChoice } from '../parts/language-choice.js';
import { FailureLine } from '../parts/failure-line.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { SignedIn, SigningIn } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

interface SignInFormProps {
  /** What happened before, such as having signed out. */
  note: string | undefined;
  onIn: (session: SignedIn) => void;
  onForgotten: () => void;
}

const words = SIGN_IN_WORDS.form;
const FIELDS = ['/email', '/password', '/code'];

export function SignInForm({ note, onIn, onForgotten }: SignInFormProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { given, give, firmIds, wrong, isSending, signIn } = useSigningIn(onIn);
  const form = useFocusOnWrong<HTMLFormElement>(wrong);
  const submit = (event: Event) => {
    event.preventDefault();
    signIn();
  };
  return (
    <form class="card" onSubmit={submit} noValidate ref={form}>
      <h1 tabIndex={-1} ref={heading}>
        {words.title}
      </h1>
      {note !== undefined && <p role="status">{note}</p>}
      <TextField
        label={SIGN_IN_WORDS.email}
        autocomplete="username"
        value={given.email}
        onValue={(email) => give({ email })}
        maxLength={320}
        error={wrong?.sentenceFor('/email')}
      />
      <TextField
        label={words.password}
        isHidden
        autocomplete="current-password"
        value={given.password}
        onValue={(password) => give({ password })}
        error={wrong?.sentenceFor('/password')}
      />
      {given.code !== undefined && (
        <CodeField
          code={given.code}
          onCode={(code) => give({ code })}
          error={wrong?.sentenceFor('/code')}
        />
      )}
      <FailureLine failure={wrong} fields={FIELDS} />
      {firmIds.length === 0 ? (
        <button type="submit" class="main" aria-disabled={isSending}>
          {isSending ? SIGN_IN_WORDS.oneMoment : SIGN_IN_WORDS.signIn}
        </button>
      ) : (
        <FirmChoice firmIds={firmIds} onFirm={signIn} />
      )}
      <p>
        <button type="button" onClick={onForgotten}>
          {words.forgot}
        </button>
      </p>
      <LanguageChoice />
    </form>
  );
}

/** What was entered, and what came of sending it; the code is asked for once the password was right. */
function useSigningIn(onIn: (session: SignedIn) => void) {
  const [given, setGiven] = useState<SigningIn>({ email: '', password: '' });
  const [firmIds, setFirmIds] = useState<readonly string[]>([]);
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const give = (more: Partial<SigningIn>) => setGiven({ ...given, ...more });
  const signIn = (firmId?: string) => {
    const missing = findMissing(given);
    setLacking(missing);
    if (missing !== undefined) return;
    send(async () => {
      try {
        const body = { ...given, ...(firmId !== undefined && { firmId }) };
        onIn(await ask<SignedIn>('POST', '/session', { body }));
      } catch (error) {
        if (!(error instanceof Failure)) throw error;
        if (error.isA('second-step-required')) give({ code: '' });
        else if (error.firmIds.length > 0) setFirmIds(error.firmIds);
        else throw atItsField(error, given.code !== undefined);
      }
    });
  };
  return { given, give, firmIds, wrong: lacking ?? failure, isSending, signIn };
}

interface CodeFieldProps {
  code: string;
  onCode: (code: string) => void;
  error: string | undefined;
}

/** Appears once the password was right, and is where to go on. */
function CodeField({ code, onCode, error }: CodeFieldProps) {
  const legend = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <>
      <h2 tabIndex={-1} ref={legend}>
        {words.secondStep}
      </h2>
      <TextField
        label={words.code}
        hint={words.codeHint}
        autocomplete="one-time-code"
        value={code}
        onValue={onCode}
        maxLength={100}
        error={error}
      />
    </>
  );
}

function FirmChoice({
  firmIds,
  onFirm,
}: {
  firmIds: readonly string[];
  onFirm: (firmId: string) => void;
}) {
  return (
    <>
      <p role="alert">{words.firms}</p>
      {firmIds.map((firmId) => (
        <button type="button" class="main" key={firmId} onClick={() => onFirm(firmId)}>
          {words.firm(firmId)}
        </button>
      ))}
    </>
  );
}

function findMissing({ email, password, code }: SigningIn): Failure | undefined {
  const errors = [
    ...(email.trim() === '' ? [{ field: '/email', reason: words.noEmail }] : []),
    ...(password === '' ? [{ field: '/password', reason: words.noPassword }] : []),
    ...(code === '' ? [{ field: '/code', reason: words.noCode }] : []),
  ];
  return errors.length === 0 ? undefined : new Failure(422, words.missing, errors);
}

/** The service does not say which of the two was wrong, and the page cannot know. */
function atItsField(failure: Failure, isCode: boolean): Failure {
  if (failure.status !== 401) return failure;
  const field = isCode ? '/code' : '/password';
  return new Failure(401, failure.message, [{ field, reason: failure.message }]);
}
