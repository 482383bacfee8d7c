import { useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { FIRM_WORDS, ROLE_WORDS } from '../words/words.js';

const ROLES = ['dispatcher', 'technician', 'contract-manager', 'owner'] as const;
const NOBODY = { name: '', email: '', role: 'technician' as (typeof ROLES)[number] };

/** Somebody of the firm gets a link by which to choose a password. */
export function InviteForm({ onInvited }: { onInvited: () => void }) {
  const service = useService();
  const isBegun = useIsBegun('invitation');
  const { draft: given, give, settle } = useDraft('invitation', NOBODY);
  const [isInvited, setInvited] = useState(false);
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const roles = ROLES.map((value) => ({ value, words: ROLE_WORDS[value] }));
  const invite = (event: Event) => {
    event.preventDefault();
    setInvited(false);
    send(async () => {
      await service.send('POST', '/invitations', { body: given });
      settle();
      setInvited(true);
      onInvited();
    });
  };
  return (
    <details class="narrow" open={isBegun}>
      <summary>{FIRM_WORDS.invite}</summary>
      <form onSubmit={invite} noValidate ref={form}>
        <TextField
          label={FIRM_WORDS.name}
          autocomplete="off"
          value={given.name}
          onValue={(name) => give({ name })}
          error={failure?.sentenceFor('/name')}
        />
        <TextField
          label={FIRM_WORDS.email}
          autocomplete="off"
          value={given.email}
          onValue={(email) => give({ email })}
          error={failure?.sentenceFor('/email')}
        />
        <ChooseField
          label={FIRM_WORDS.role}
          value={given.role}
          choices={roles}
          onValue={(role) => give({ role: role as (typeof ROLES)[number] })}
          error={failure?.sentenceFor('/role')}
        />
        <FailureLine failure={failure} fields={['/name', '/email', '/role']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {FIRM_WORDS.inviteButton}
        </button>
      </form>
      <p role="status">{isInvited && FIRM_WORDS.invited}</p>
    </details>
  );
}
