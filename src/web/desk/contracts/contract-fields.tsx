import { ChooseField, TickField, TicksField } from '../../parts/choose-field.js';
import { TextField } from '../../parts/text-field.js';
import type { ContractFieldsProps } from './contract-form.js';
import { CONTRACT_WORDS } from '../words/words.js';

/** Of whom, what, how long, for how much. */
export function ContractWhat({ draft, give, wrong, clients, sites }: ContractFieldsProps) {
  const words = CONTRACT_WORDS.form;
  const kinds = ['comprehensive', 'labour-only'] as const;
  const line = (name: 'title' | 'from' | 'last', label: string, field: string) => (
    <TextField
      label={label}
      autocomplete="off"
      type={name === 'title' ? 'text' : 'date'}
      value={draft[name]}
      onValue={(value) => give({ [name]: value })}
      error={wrong(field)}
    />
  );
  return (
    <>
      {line('title', words.title, '/title')}
      <ChooseField
        label={words.client}
        value={draft.clientId}
        onValue={(clientId) => give({ clientId, siteIds: [] })}
        choices={[
          { value: '', words: words.choose },
          ...clients.map(({ id, name }) => ({ value: id, words: name })),
        ]}
        error={wrong('/clientId')}
      />
      <TicksField
        legend={words.sites}
        choices={sites.filter(({ clientId }) => clientId === draft.clientId)}
        chosen={draft.siteIds}
        onChosen={(siteIds) => give({ siteIds })}
        error={wrong('/siteIds')}
      />
      {draft.clientId === '' && <p class="hint">{words.notInSite}</p>}
      {line('from', words.from, '/from')}
      {line('last', words.last, '/until')}
      <ChooseField
        label={words.kind}
        value={draft.kind}
        onValue={(value) => give({ kind: kinds.find((kind) => kind === value) ?? draft.kind })}
        choices={kinds.map((kind) => ({ value: kind, words: words.kinds[kind] }))}
      />
    </>
  );
}

/** How often, for how much, and the rest. */
export function ContractMore({ draft, give, wrong, calendars }: ContractFieldsProps) {
  const words = CONTRACT_WORDS.form;
  type Line =
    'visitsPerYear' | 'callOutsPerYear' | 'fee' | 'currency' | 'exclusions' | 'noticeDays';
  const line = (name: Line, label: string, field: string) => (
    <TextField
      label={label}
      autocomplete="off"
      value={draft[name]}
      onValue={(value) => give({ [name]: value })}
      error={wrong(field)}
    />
  );
  return (
    <>
      {calendars.length > 0 && (
        <TicksField
          legend={words.calendars}
          choices={calendars}
          chosen={draft.calendarIds}
          onChosen={(calendarIds) => give({ calendarIds })}
        />
      )}
      <TickField
        label={words.pauses}
        value={draft.pausesForParts}
        onValue={(pausesForParts) => give({ pausesForParts })}
      />
      {line('visitsPerYear', words.visits, '/visitsPerYear')}
      {line('callOutsPerYear', words.callOuts, '/callOutsPerYear')}
      {line('fee', words.fee, '/feeMinor')}
      {line('currency', words.currency, '/currency')}
      {line('exclusions', words.exclusions, '/exclusions')}
      {line('noticeDays', words.notice, '/noticeDays')}
    </>
  );
}
