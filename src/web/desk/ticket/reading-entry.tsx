import { CORES, LOOP_CORES } from '#app/locator/index.js';
import { ChooseField, TicksField } from '../../parts/choose-field.js';
import { NodeField } from '../../parts/node-field.js';
import { TextField } from '../../parts/text-field.js';
import { MEASURED, numberTyped, usualUncertainty } from '../../parts/typed-number.js';
import { EnterForm, type LearnedFormProps } from './enter-form.js';
import { type MeterKind, emptyReading, type ReadingDraft, readingOf } from './reading-draft.js';
import { saidAt, saidBy, TellerFields } from './told-by.js';
import { useDraft } from '../use-draft.js';
import { useEntry } from './use-entry.js';
import { EVIDENCE_WORDS } from '../words/words.js';

const KINDS: readonly MeterKind[] = ['supply-volts', 'loop-ohms', 'continuity'];

/** A number off a meter, or whether cores get through. */
export function ReadingEntry(props: LearnedFormProps) {
  const { ticket, site, record, teller, onTeller, onEntered } = props;
  const empty = emptyReading(record.trunks[0]?.trunk ?? '');
  const { draft, give, settle } = useDraft(`reading of ${ticket.id}`, empty);
  const { isSending, failure, enter } = useEntry();
  const wrong = (field: string) => failure?.sentenceFor(field);
  const submit = () => {
    const made = readingOf(draft);
    const name = teller.name.trim() === '';
    const errors = [
      ...('errors' in made ? made.errors : []),
      ...(name ? [{ field: '/takenBy', reason: EVIDENCE_WORDS.noWho }] : []),
    ];
    const by = { takenBy: saidBy(teller), takenAt: saidAt(teller, site.zone) };
    const posed = errors.length > 0 ? { errors } : { body: { ...by, ...made } };
    enter(`/tickets/${ticket.id}/readings`, posed, () => {
      settle({ ...draft, number: '', uncertainty: '' });
      onEntered(EVIDENCE_WORDS.kinds[draft.kind]);
    });
  };
  return (
    <EnterForm {...{ isSending, failure }} fields={READING_FIELDS} onSubmit={submit}>
      <ChooseField
        label={EVIDENCE_WORDS.kind}
        value={draft.kind}
        choices={KINDS.map((value) => ({ value, words: EVIDENCE_WORDS.kinds[value] }))}
        onValue={(kind) => give({ kind: kind as MeterKind })}
      />
      {draft.kind === 'continuity' ? (
        <ContinuityFields {...{ draft, give, wrong, record }} />
      ) : (
        <NumberFields {...{ draft, give, wrong, record, kind: draft.kind }} />
      )}
      <TellerFields
        {...{ teller, onTeller }}
        zone={site.zone}
        wrong={{ name: wrong('/takenBy'), at: wrong('/takenAt') }}
      />
    </EnterForm>
  );
}

const READING_FIELDS = [
  ...['node', 'volts', 'ohms', 'uncertaintyVolts', 'uncertaintyOhms', 'trunk', 'core', 'from'],
  ...['to', 'cores', 'passes'],
]
  .map((name) => `/reading/${name}`)
  .concat('/takenBy', '/takenAt');

interface DraftFieldsProps extends Pick<LearnedFormProps, 'record'> {
  draft: ReadingDraft;
  give: (more: Partial<ReadingDraft>) => void;
  wrong: (field: string) => string | undefined;
}

function NumberFields({
  draft,
  give,
  wrong,
  record,
  kind,
}: DraftFieldsProps & { kind: keyof typeof MEASURED }) {
  const { unit } = MEASURED[kind];
  const value = numberTyped(draft.number.trim().replace(',', '.')) ?? 0;
  const usual = `${usualUncertainty(kind, value)} ${unit}`;
  const isVolts = kind === 'supply-volts';
  return (
    <>
      {isVolts ? (
        <NodeField
          label={EVIDENCE_WORDS.where}
          cables={record.trunks}
          value={draft.node}
          onValue={(node) => give({ node })}
          none={EVIDENCE_WORDS.choose}
          error={wrong('/reading/node')}
        />
      ) : (
        <>
          <ChooseField
            label={EVIDENCE_WORDS.trunk}
            value={draft.trunk}
            choices={record.trunks.map(({ trunk }) => ({ value: trunk, words: trunk }))}
            onValue={(trunk) => give({ trunk })}
            error={wrong('/reading/trunk')}
          />
          <ChooseField
            label={EVIDENCE_WORDS.core}
            value={draft.core}
            choices={LOOP_CORES.map((value) => ({ value, words: EVIDENCE_WORDS.cores[value] }))}
            onValue={(core) => give({ core: core as ReadingDraft['core'] })}
            error={wrong('/reading/core')}
          />
        </>
      )}
      <TextField
        label={EVIDENCE_WORDS.number(unit)}
        autocomplete="off"
        maxLength={30}
        value={draft.number}
        onValue={(number) => give({ number })}
        error={wrong(isVolts ? '/reading/volts' : '/reading/ohms')}
      />
      <TextField
        label={EVIDENCE_WORDS.uncertainty(unit)}
        hint={EVIDENCE_WORDS.uncertaintyHint(usual)}
        autocomplete="off"
        maxLength={30}
        value={draft.uncertainty}
        onValue={(uncertainty) => give({ uncertainty })}
        error={wrong(isVolts ? '/reading/uncertaintyVolts' : '/reading/uncertaintyOhms')}
      />
    </>
  );
}

function ContinuityFields({ draft, give, wrong, record }: DraftFieldsProps) {
  const ends = [
    { value: 'yes', words: EVIDENCE_WORDS.getsThrough },
    { value: 'no', words: EVIDENCE_WORDS.getsNotThrough },
  ];
  return (
    <>
      <NodeField
        label={EVIDENCE_WORDS.from}
        cables={record.trunks}
        value={draft.from}
        onValue={(from) => give({ from })}
        none={EVIDENCE_WORDS.fromHeadEnd}
        error={wrong('/reading/from')}
      />
      <NodeField
        label={EVIDENCE_WORDS.to}
        cables={record.trunks}
        value={draft.node}
        onValue={(node) => give({ node })}
        none={EVIDENCE_WORDS.choose}
        error={wrong('/reading/to')}
      />
      <TicksField
        legend={EVIDENCE_WORDS.coresTried}
        choices={CORES.map((id) => ({ id, name: EVIDENCE_WORDS.cores[id] }))}
        chosen={draft.cores}
        onChosen={(cores) => give({ cores: cores as ReadingDraft['cores'] })}
        error={wrong('/reading/cores')}
      />
      <ChooseField
        label={EVIDENCE_WORDS.passes}
        value={draft.passes ? 'yes' : 'no'}
        choices={ends}
        onValue={(value) => give({ passes: value === 'yes' })}
        error={wrong('/reading/passes')}
      />
    </>
  );
}
