import { useId, useState } from 'preact/hooks';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import { FIRM_WORDS, ROLE_WORDS } from '../words/words.js';

const ROLES = ['dispatcher', 'technician', 'contract-manager', 'owner'] as const;
const NOBODY = { name: '', email: '', role: 'technician' as (typeof ROLES)[number] };

/** Somebody of the firm gets a link by which to choose a password. */
export function InviteForm({ onInvited }: { onInvited: () => void }) {
  const service = useService();
  const id = useId();
  const [given, setGiven] = useState(NOBODY);
  const [isInvited, setInvited] = useState(false);
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const invite = (event: Event) => {
    event.preventDefault();
    setInvited(false);
    send(async () => {
      await service.send('POST', '/invitations', { body: given });
      setGiven(NOBODY);
      setInvited(true);
      onInvited();
    });
  };
  return (
    <details class="narrow">
      <summary>{FIRM_WORDS.invite}</summary>
      <form onSubmit={invite} noValidate ref={form}>
        <TextField
          label={FIRM_WORDS.name}
          autocomplete="off"
          value={given.name}
          onValue={(name) => setGiven({ ...given, name })}
          error={failure?.sentenceFor('/name')}
        />
        <TextField
          label={FIRM_WORDS.email}
          autocomplete="off"
          value={given.email}
          onValue={(email) => setGiven({ ...given, email })}
          error={failure?.sentenceFor('/email')}
        />
        <p class="field">
          <label for={id}>{FIRM_WORDS.role}</label>
          <select
            id={id}
            value={given.role}
            onChange={({ currentTarget: { value } }) =>
              setGiven({ ...given, role: ROLES.find((role) => role === value) ?? given.role })
            }
          >
            {ROLES.map((role) => (
              <option key={role} value={role}>
                {ROLE_WORDS[role]}
              </option>
            ))}
          </select>
        </p>
        <FailureLine failure={failure} fields={['/name', '/email']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {FIRM_WORDS.inviteButton}
        </button>
      </form>
      <p role="status">{isInvited && FIRM_WORDS.invited}</p>
    </details>
  );
}
