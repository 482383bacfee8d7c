import { wordsIn } from '#app/words/index.js';
import { ChooseField } from '../../parts/choose-field.js';
import { PAGE_LANGUAGE } from '../../parts/language.js';
import { type LookablePart, partInWords, partsAt } from '../../parts/lookable-parts.js';
import { type NodeChosen, NodeField } from '../../parts/node-field.js';
import { namesOn, type NameStation } from './cause-of.js';
import { EnterForm, type LearnedFormProps } from './enter-form.js';
import { saidAt, saidBy, type Teller, TellerFields } from './told-by.js';
import { useDraft } from '../use-draft.js';
import { type Made, useEntry } from './use-entry.js';
import { EVIDENCE_WORDS } from '../words/words.js';

const SEEN = ['sound', 'faulty'] as const;
const LOOK_FIELDS = ['/place', '/part', '/group', '/seen', '/saidBy', '/saidAt'];

interface LookDraft {
  node: NodeChosen | undefined;
  /** The part’s key. */
  chosen: string;
  seen: (typeof SEEN)[number];
}

const NO_LOOK: LookDraft = { node: undefined, chosen: '', seen: 'sound' };

/** A part as it is called on the desk. */
export function nameOfPart(part: Omit<LookablePart, 'mode'>, nameOf: NameStation): string {
  const words = wordsIn(PAGE_LANGUAGE);
  return partInWords(part, { words, settings: EVIDENCE_WORDS.settings }, nameOf);
}

/** What the office can see without opening anything is the head-end, and units from outside. */
function isForOffice({ place }: LookablePart): boolean {
  return place.kind === 'head-end' || place.kind === 'station';
}

/** A part that somebody looked at: sound, or faulty. */
export function LookEntry(props: LearnedFormProps) {
  const { ticket, site, record, teller, onTeller, onEntered } = props;
  const { draft, give, settle } = useDraft(`look of ${ticket.id}`, NO_LOOK);
  const { node, chosen, seen } = draft;
  const { isSending, failure, enter } = useEntry();
  const wrong = (field: string) => failure?.sentenceFor(field);
  const all = partsAt(record.trunks, node);
  const parts = teller.kind === 'office' ? all.filter(isForOffice) : all;
  const nameOf = (part: LookablePart) => nameOfPart(part, namesOn(record.trunks));
  const part = parts.find((one) => keyOf(one) === chosen);
  const submit = () =>
    enter(`/tickets/${ticket.id}/looks`, poseLook(part, seen, { teller, zone: site.zone }), () => {
      settle({ ...draft, chosen: '' });
      const name = part === undefined ? '' : nameOf(part);
      onEntered(EVIDENCE_WORDS.seen(name, EVIDENCE_WORDS[seen]));
    });
  return (
    <EnterForm {...{ isSending, failure }} fields={LOOK_FIELDS} onSubmit={submit}>
      <TellerFields
        {...{ teller, onTeller }}
        zone={site.zone}
        wrong={{ name: wrong('/saidBy'), at: wrong('/saidAt') }}
      />
      {teller.kind === 'office' && <p class="hint">{EVIDENCE_WORDS.whoHint}</p>}
      <NodeField
        label={EVIDENCE_WORDS.where}
        cables={record.trunks}
        value={node}
        onValue={(at) => give({ node: at })}
        none={EVIDENCE_WORDS.headEnd}
        error={wrong('/place')}
      />
      {parts.length === 0 ? (
        <p>{EVIDENCE_WORDS.noneToSee}</p>
      ) : (
        <ChooseField
          label={EVIDENCE_WORDS.part}
          value={part === undefined ? '' : chosen}
          choices={[
            { value: '', words: EVIDENCE_WORDS.choose },
            ...parts.map((one) => ({ value: keyOf(one), words: nameOf(one) })),
          ]}
          onValue={(key) => give({ chosen: key })}
          error={wrong('/part') ?? wrong('/group')}
        />
      )}
      <ChooseField
        label={EVIDENCE_WORDS.asFound}
        value={seen}
        choices={SEEN.map((value) => ({ value, words: EVIDENCE_WORDS[value] }))}
        onValue={(value) => give({ seen: value as typeof seen })}
        error={wrong('/seen')}
      />
    </EnterForm>
  );
}

function poseLook(
  part: LookablePart | undefined,
  seen: (typeof SEEN)[number],
  { teller, zone }: { teller: Teller; zone: string },
): Made {
  const errors = [
    ...(part === undefined ? [{ field: '/part', reason: EVIDENCE_WORDS.noPart }] : []),
    ...(teller.name.trim() === '' ? [{ field: '/saidBy', reason: EVIDENCE_WORDS.noWho }] : []),
  ];
  if (part === undefined || errors.length > 0) return { errors };
  const by = { saidBy: saidBy(teller), saidAt: saidAt(teller, zone) };
  return { body: { ...by, place: part.place, part: part.part, group: part.group, seen } };
}

function keyOf({ place, part, group }: LookablePart): string {
  return JSON.stringify([place, part, group]);
}
