import { useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import { instantAt } from '../../parts/instant-at.js';
import { TextField } from '../../parts/text-field.js';
import { EVIDENCE_WORDS } from '../words/words.js';

/** Who told the desk, and when it was so. */
export interface Teller {
  name: string;
  kind: 'technician' | 'office';
  /** By the clock of the site; empty: now. */
  at: string;
}

export function useTeller(): { teller: Teller; setTeller: (teller: Teller) => void } {
  const [teller, setTeller] = useState<Teller>({ name: '', kind: 'technician', at: '' });
  return { teller, setTeller };
}

/** As the service takes it. */
export function saidBy({ name, kind }: Teller) {
  return { name: name.trim(), kind };
}

/** Left out where it is now. */
export function saidAt({ at }: Teller, zone: string): string | undefined {
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
