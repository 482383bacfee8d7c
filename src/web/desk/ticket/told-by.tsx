import { ChooseField } from '../../parts/choose-field.js';
import { instantAt } from '../../parts/instant-at.js';
import { TextField } from '../../parts/text-field.js';
import { useDraft } from '../use-draft.js';
import { EVIDENCE_WORDS } from '../words/words.js';

/** Who told the desk, and when it was so. */
export interface Teller {
  name: string;
  kind: 'technician' | 'office';
  /** By the clock of the site; empty: now. */
  at: string;
}

const NOBODY: Teller = { name: '', kind: 'technician', at: '' };

/** What several forms of a ticket share. */
export function useTeller(ticketId: string) {
  const { draft, give, settle } = useDraft(`teller of ${ticketId}`, NOBODY);
  return { teller: draft, setTeller: give, settleTeller: () => settle(draft) };
}

/** As the service takes it. */
export function saidBy({ name, kind }: Teller) {
  return { name: name.trim(), kind };
}

/** Left out where it is now. */
export function saidAt({ at }: Pick<Teller, 'at'>, zone: string): string | undefined {
  return at === '' ? undefined : instantAt(at, zone);
}

interface TellerFieldsProps {
  teller: Teller;
  onTeller: (teller: Teller) => void;
  zone: string;
  /** What is wrong with the name, and with the time. */
  wrong: { name?: string | undefined; at?: string | undefined };
  /** Only a technician takes cable off. */
  isTechnician?: boolean;
}

export function TellerFields({ teller, onTeller, zone, wrong, ...rest }: TellerFieldsProps) {
  const { technician, office } = EVIDENCE_WORDS;
  const kinds = [
    { value: 'technician', words: technician },
    { value: 'office', words: office },
  ];
  return (
    <>
      <TextField
        label={EVIDENCE_WORDS.who}
        autocomplete="off"
        maxLength={200}
        value={teller.name}
        onValue={(name) => onTeller({ ...teller, name })}
        error={wrong.name}
      />
      {rest.isTechnician !== true && (
        <ChooseField
          label={EVIDENCE_WORDS.whoIs}
          value={teller.kind}
          choices={kinds}
          onValue={(kind) => onTeller({ ...teller, kind: kind as Teller['kind'] })}
        />
      )}
      <TextField
        label={EVIDENCE_WORDS.when}
        hint={EVIDENCE_WORDS.whenClock(zone)}
        type="datetime-local"
        autocomplete="off"
        value={teller.at}
        onValue={(at) => onTeller({ ...teller, at })}
        error={wrong.at}
      />
    </>
  );
}
