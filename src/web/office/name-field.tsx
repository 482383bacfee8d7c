import type { Office } from './use-office.js';
import { TextField } from '../parts/text-field.js';
import { OFFICE_WORDS } from './own-words.js';

/** Asked wherever something is said; typed once, it stands everywhere. */
export function NameField({ office, error }: { office: Office; error: string | undefined }) {
  return (
    <TextField
      label={OFFICE_WORDS.report.yourName}
      autocomplete="name"
      maxLength={200}
      value={office.name}
      onValue={office.onName}
      error={error}
    />
  );
}
