import { TickField, TicksField } from '../parts/choose-field.js';
import { LongText, TextField } from '../parts/text-field.js';
import type { SaidOddity, ReportDraft } from './report-draft.js';
import { OFFICE_WORDS } from './own-words.js';

const WORDS = OFFICE_WORDS.report;
const ODDITIES: readonly SaidOddity[] = ['humming', 'crackling', 'wrong-time'];

interface BesidesFieldsProps {
  draft: ReportDraft;
  isDrawn: boolean;
  onChange: (part: Partial<ReportDraft>) => void;
  why: (field: string) => string | undefined;
}

/** What may be said besides the rooms; none of it has to be. */
export function BesidesFields({ draft, isDrawn, onChange, why }: BesidesFieldsProps) {
  const { isUrgent } = draft;
  return (
    <>
      <TickField
        label={WORDS.urgent}
        value={isUrgent}
        onValue={(now) => onChange({ isUrgent: now })}
      />
      {isUrgent && (
        <TextField
          label={WORDS.whyUrgent}
          autocomplete="off"
          maxLength={200}
          value={draft.whyUrgent}
          onValue={(whyUrgent) => onChange({ whyUrgent })}
          error={why('/urgentReason')}
        />
      )}
      <TextField
        label={WORDS.callBack}
        autocomplete="tel"
        maxLength={40}
        value={draft.callBack}
        onValue={(callBack) => onChange({ callBack })}
        error={why('/callBackPhone')}
      />
      <TicksField
        legend={WORDS.oddities.legend}
        choices={ODDITIES.map((id) => ({ id, name: WORDS.oddities[id] }))}
        chosen={draft.oddities}
        onChosen={(ids) => onChange({ oddities: ODDITIES.filter((one) => ids.includes(one)) })}
      />
      {isDrawn && (
        <LongText
          label={WORDS.note}
          value={draft.note}
          onValue={(note) => onChange({ note })}
          error={why('/note')}
        />
      )}
    </>
  );
}
