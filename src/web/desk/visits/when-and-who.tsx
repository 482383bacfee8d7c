import { ChooseField } from '../../parts/choose-field.js';
import type { Failure } from '../../parts/failure.js';
import { TextField } from '../../parts/text-field.js';
import type { ReadPerson } from '../../parts/wire.js';
import { BOOK_VISIT_WORDS } from '../words/words.js';
import type { TypedChange } from './visit-change.js';

interface WhenAndWhoProps {
  /** Of the site. */
  zone: string;
  technicians: readonly ReadPerson[];
  shown: TypedChange;
  give: (more: Partial<TypedChange>) => void;
  failure: Failure | undefined;
}

/** The day and the hours of a visit by the site's clock, and who makes it. */
export function WhenAndWho({ zone, technicians, shown, give, failure }: WhenAndWhoProps) {
  const words = BOOK_VISIT_WORDS;
  const typed = (name: keyof TypedChange, label: string, type: 'date' | 'time', hint?: string) => (
    <TextField
      label={label}
      {...(hint !== undefined && { hint })}
      type={type}
      autocomplete="off"
      value={shown[name]}
      onValue={(value) => give({ [name]: value })}
      error={failure?.sentenceFor(`/${name}`)}
    />
  );
  return (
    <>
      {typed('on', words.on, 'date')}
      {typed('fromTime', words.from, 'time', words.clock(zone))}
      {typed('untilTime', words.until, 'time')}
      <ChooseField
        label={words.who}
        value={shown.technicianId}
        choices={[
          { value: '', words: words.nobody },
          ...technicians.map(({ id, name }) => ({ value: id, words: name })),
        ]}
        onValue={(technicianId) => give({ technicianId })}
        error={failure?.sentenceFor('/technicianId')}
      />
    </>
  );
}
