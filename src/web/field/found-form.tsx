import { useLocation } from 'preact-iso';
import type { WalkRecord } from '#app/walks/walk-records.js';
import { wordsIn } from '#app/words/index.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { LongText, TextField } from '../parts/text-field.js';
import type { ReadKit } from '../parts/wire.js';
import { Choice } from '../parts/choice.js';
import { type EnteringOf, useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import { nameNodesIn } from './kit-node-field.js';
import type { ToEnter } from './outbox-keeper.js';
import { partInWords } from '../parts/lookable-parts.js';
import { NO_PART, type TypedPart, type UsedPart, UsedParts, withTyped } from './used-parts.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';
import { useFieldDraft } from './use-field-draft.js';

type Found = Extract<WalkRecord, { kind: 'finding' }>;

/** What was found, if anything, and how it was mended: then the rooms are tried. */
export function FoundForm({ kept, subject, home }: FieldTicketProps) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, instead } = entering;
  const { query, route } = useLocation();
  const found = foundIn(query['found']);
  const where = found === undefined ? '' : foundInWords(found, kept.value.kit);
  const at = `/tickets/${kept.value.ticket.id}`;
  const saidBy = { name: person.name, kind: 'technician' };
  const finding: ToEnter[] =
    found === undefined
      ? []
      : [
          {
            path: `${at}/findings`,
            body: { saidBy, place: found.place, component: found.component, mode: found.mode },
            words: FIELD_WORDS.foundWords(where),
          },
        ];
  const mended = (done: Done, settle: () => void) => {
    const mending = { path: `${at}/mendings`, body: { saidBy, ...done }, words: done.what };
    enter([...finding, mending], () => {
      settle();
      route(`${home}/walk-test`);
    });
  };
  // What was done about it waits by itself already.
  const isFindingOnly = found !== undefined && instead?.path.endsWith('/findings') === true;
  return (
    <EntrySection
      title={where === '' ? FIELD_WORDS.menu.found : FIELD_WORDS.foundWords(where)}
      entering={entering}
      fields={MENDING_FIELDS}
    >
      {!isFindingOnly && (
        <MendingFields
          of={kept.value.ticket.id}
          first={where === '' ? '' : FIELD_WORDS.mended(where)}
          button={FIELD_WORDS.mendedNow}
          {...entering}
          onDone={mended}
        />
      )}
      {found !== undefined && (
        <p>
          <button type="button" onClick={() => enter(finding, () => route(home))}>
            {isFindingOnly ? FIELD_WORDS.enter : FIELD_WORDS.notMendedNow}
          </button>
        </p>
      )}
    </EntrySection>
  );
}

export interface Done {
  mending: 'lasting' | 'temporary';
  what: string;
  parts: readonly UsedPart[];
  followUpDueOn?: string;
}

export const MENDING_FIELDS = ['/what', '/mending', '/followUpDueOn', '/parts'];

interface MendingFieldsProps extends Pick<EnteringOf, 'instead' | 'wrong'> {
  /** The ticket. */
  of: string;
  /** What is said where nothing else is. */
  first: string;
  button: string;
  /** `settle`: once it is kept, what was typed is forgotten. */
  onDone: (done: Done, settle: () => void) => void;
}

export function MendingFields(props: MendingFieldsProps) {
  const { button, wrong, onDone } = props;
  const { draft, give, settle } = useMendingDraft(props);
  const { what, mending, dueOn, parts, typed } = draft;
  const isDated = mending === 'lasting' || /^\d{4}-\d\d-\d\d$/.test(dueOn);
  const used = withTyped(parts, typed);
  const isReady = what.trim() !== '' && isDated && used !== undefined;
  const due = mending === 'temporary' ? { followUpDueOn: dueOn } : {};
  return (
    <>
      <LongText
        label={FIELD_WORDS.whatWasDone}
        value={what}
        onValue={(text) => give({ what: text })}
        error={wrong('/what')}
      />
      <Choice
        legend={FIELD_WORDS.howLong}
        names={{ lasting: FIELD_WORDS.forGood, temporary: FIELD_WORDS.forNow }}
        of={['lasting', 'temporary'] as const}
        value={mending}
        onValue={(how) => give({ mending: how })}
        error={wrong('/mending')}
      />
      {mending === 'temporary' && (
        <TextField
          label={FIELD_WORDS.comeBackBy}
          hint={FIELD_WORDS.dayHint}
          value={dueOn}
          onValue={(day) => give({ dueOn: day })}
          autocomplete="off"
          error={wrong('/followUpDueOn')}
        />
      )}
      <UsedParts {...{ parts, typed }} onGive={give} error={wrong('/parts')} />
      <button
        type="button"
        class="main"
        aria-disabled={!isReady}
        onClick={() =>
          isReady && onDone({ mending, what: what.trim(), parts: used, ...due }, settle)
        }
      >
        {button}
      </button>
    </>
  );
}

interface MendingDraft {
  what: string;
  mending: Done['mending'];
  dueOn: string;
  parts: readonly UsedPart[];
  typed: TypedPart;
}

/** As it was typed before, as it was refused, or as it begins. */
function useMendingDraft({ of, first, instead }: MendingFieldsProps) {
  const isOfMending = instead?.path.endsWith('/mendings') === true;
  const before = (isOfMending ? instead.body : {}) as Partial<Done>;
  return useFieldDraft<MendingDraft>(`mending of ${of} ${first} ${instead?.order ?? ''}`, {
    what: before.what ?? first,
    mending: before.mending ?? 'lasting',
    dueOn: before.followUpDueOn ?? '',
    parts: before.parts ?? [],
    typed: NO_PART,
  });
}

function foundInWords(found: Found, kit: ReadKit): string {
  const { place, component, mode } = found;
  const part = mode ?? (place.kind === 'station' ? 'unit' : component);
  const called = { words: wordsIn(PAGE_LANGUAGE), settings: FIELD_WORDS.settings };
  return partInWords({ place, component, part, group: null }, called, nameNodesIn(kit));
}

function foundIn(text: string | undefined): Found | undefined {
  try {
    const found = JSON.parse(text ?? 'null') as Found | null;
    return found?.kind === 'finding' ? found : undefined;
  } catch {
    return undefined;
  }
}
