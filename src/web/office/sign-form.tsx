import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { NameField } from './name-field.js';
import { OFFICE_WORDS } from './own-words.js';
import type { Office } from './use-office.js';
import { SignaturePad } from '../parts/signature-pad.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { VisitToSign } from '../parts/wire.js';

/** Signs for the work of a visit by name, as the service keeps it. */
export function SignForm({ office, visit }: { office: Office; visit: VisitToSign }) {
  const [remark, setRemark] = useState('');
  const [drawn, setDrawn] = useState('');
  const [attempts, setAttempts] = useState(0);
  const [signedAs, setSignedAs] = useState<string>();
  const { isSending, failure, send } = useSending();
  const name = office.name.trim();
  const form = useFocusOnWrong<HTMLFormElement>(`${attempts} ${String(failure)}`);
  const submit = (event: Event) => {
    event.preventDefault();
    setAttempts(attempts + 1);
    if (name === '') return;
    send(async () => {
      const content = { name, remark: remark.trim() || null, drawn: drawn || null };
      await office.send(`/visits/${visit.id}/signatures`, content);
      setSignedAs(name);
    });
  };
  const words = OFFICE_WORDS.sign;
  if (signedAs !== undefined) {
    return (
      <p class="card" role="status">
        {words.signed(visit.on, signedAs)}
      </p>
    );
  }
  return (
    <form class="card" onSubmit={submit} noValidate ref={form}>
      <h3>{words.visit(visit.on)}</h3>
      <p>{visit.workDone ?? words.nothingWritten}</p>
      <NameField
        office={office}
        error={
          attempts > 0 && name === ''
            ? OFFICE_WORDS.report.missing.name
            : failure?.sentenceFor('/name')
        }
      />
      <SignaturePad value={drawn} onValue={setDrawn} />
      <TextField
        label={words.remark}
        autocomplete="off"
        maxLength={2000}
        value={remark}
        onValue={setRemark}
        error={failure?.sentenceFor('/remark')}
      />
      <FailureLine failure={failure} fields={['/name', '/remark']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {words.button}
      </button>
    </form>
  );
}
