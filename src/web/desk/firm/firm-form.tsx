import { useState } from 'preact/hooks';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadFirm } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import { FIRM_WORDS } from '../words/words.js';

interface FirmFormProps {
  firm: ReadFirm;
  onChanged: () => void;
}

/** How the firm is known to its clients. */
export function FirmForm({ firm, onChanged }: FirmFormProps) {
  const service = useService();
  const saved = { name: firm.name, phone: firm.phone ?? '' };
  const { draft: given, give, settle } = useDraft('firm', saved);
  const [isSaved, setSaved] = useState(false);
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    setSaved(false);
    send(async () => {
      const body = { name: given.name, phone: given.phone.trim() || null };
      await service.send('PATCH', '/firm', { body, ifMatch: firm.version });
      settle(given);
      setSaved(true);
      onChanged();
    });
  };
  return (
    <form class="narrow" onSubmit={submit} noValidate ref={form}>
      <TextField
        label={FIRM_WORDS.firmName}
        autocomplete="organization"
        maxLength={200}
        value={given.name}
        onValue={(name) => give({ name })}
        error={failure?.sentenceFor('/name')}
      />
      <TextField
        label={FIRM_WORDS.firmPhone}
        autocomplete="tel"
        maxLength={50}
        value={given.phone}
        onValue={(phone) => give({ phone })}
        error={failure?.sentenceFor('/phone')}
      />
      <FailureLine failure={failure} fields={['/name', '/phone']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {FIRM_WORDS.firmSave}
      </button>
      <p role="status">{isSaved && FIRM_WORDS.firmSaved}</p>
    </form>
  );
}
