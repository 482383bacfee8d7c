import { FUNCTIONS_AS_ASKED } from '#app/words/index.js';
import { ChooseField } from '../../parts/choose-field.js';
import { DRAWING_WORDS } from '../../parts/drawing/drawing-words.js';
import { type NodeChosen, NodeField } from '../../parts/node-field.js';
import type { ToldFunction } from '../../parts/wire.js';
import { namesOn, type NameStation } from './cause-of.js';
import { EnterForm, type LearnedFormProps } from './enter-form.js';
import { saidAt, saidBy, type Teller, TellerFields } from './told-by.js';
import { useDraft } from '../use-draft.js';
import { type Made, useEntry } from './use-entry.js';
import { EVIDENCE_WORDS } from '../words/words.js';

const OUTCOMES = ['works', 'weak', 'fails'] as const;
const AT = '/observations/0';
const OFF_FIELDS = [
  `${AT}/disconnectedBelow`,
  `${AT}/node`,
  `${AT}/function`,
  '/saidBy',
  '/saidAt',
];

interface OffDraft {
  below: NodeChosen | undefined;
  node: NodeChosen | undefined;
  tried: ToldFunction;
  outcome: (typeof OUTCOMES)[number];
}

const NOTHING_OFF: OffDraft = {
  below: undefined,
  node: undefined,
  tried: 'announcement',
  outcome: 'works',
};

/** All cable past a place was taken off: what came back then. A technician does that. */
export function OffEntry(props: LearnedFormProps) {
  const { ticket, site, record, teller, onTeller, onEntered } = props;
  const { draft, give, settle } = useDraft(`off of ${ticket.id}`, NOTHING_OFF);
  const { below, node, tried, outcome } = draft;
  const { isSending, failure, enter } = useEntry();
  const wrong = (field: string) => failure?.sentenceFor(field);
  const submit = () =>
    enter(`/tickets/${ticket.id}/reports`, poseOff(draft, teller, site.zone), () => {
      settle(draft);
      onEntered(offInWords(draft, namesOn(record.trunks)));
    });
  const place = { cables: record.trunks, none: EVIDENCE_WORDS.choose };
  return (
    <EnterForm {...{ isSending, failure }} fields={OFF_FIELDS} onSubmit={submit}>
      <NodeField
        {...place}
        label={EVIDENCE_WORDS.below}
        value={below}
        onValue={(chosen) => give({ below: chosen })}
        error={wrong(`${AT}/disconnectedBelow`)}
      />
      <p class="hint">{EVIDENCE_WORDS.belowHint}</p>
      <NodeField
        {...place}
        label={EVIDENCE_WORDS.listenedAt}
        value={node}
        onValue={(chosen) => give({ node: chosen })}
        error={wrong(`${AT}/node`)}
      />
      <ChooseField
        label={EVIDENCE_WORDS.tried}
        value={tried}
        choices={FUNCTIONS_AS_ASKED.map((value) => ({
          value,
          words: DRAWING_WORDS.functions[value],
        }))}
        onValue={(value) => give({ tried: value as ToldFunction })}
        error={wrong(`${AT}/function`)}
      />
      <ChooseField
        label={EVIDENCE_WORDS.outcome}
        value={outcome}
        choices={OUTCOMES.map((value) => ({ value, words: EVIDENCE_WORDS.outcomes[value] }))}
        onValue={(value) => give({ outcome: value as OffDraft['outcome'] })}
      />
      <TellerFields
        {...{ teller, onTeller }}
        zone={site.zone}
        wrong={{ name: wrong('/saidBy'), at: wrong('/saidAt') }}
        isTechnician
      />
    </EnterForm>
  );
}

function poseOff(draft: OffDraft, teller: Teller, zone: string): Made {
  const { below, node, tried, outcome } = draft;
  const { noWhere, noWho } = EVIDENCE_WORDS;
  const errors = [
    ...(below === undefined ? [{ field: `${AT}/disconnectedBelow`, reason: noWhere }] : []),
    ...(node === undefined ? [{ field: `${AT}/node`, reason: noWhere }] : []),
    ...(teller.name.trim() === '' ? [{ field: '/saidBy', reason: noWho }] : []),
  ];
  if (errors.length > 0) return { errors };
  const observation = { ...node, function: tried, outcome, disconnectedBelow: below?.node };
  const said = { saidBy: saidBy({ ...teller, kind: 'technician' }), saidAt: saidAt(teller, zone) };
  return { body: { ...said, how: 'gone-through', observations: [observation] } };
}

function offInWords({ below, node, tried, outcome }: OffDraft, nameOf: NameStation): string {
  const room = nameOf(node?.trunk, node?.node);
  const { heardOf, cableOff, outcomes } = EVIDENCE_WORDS;
  return cableOff(
    heardOf(room, DRAWING_WORDS.functions[tried], outcomes[outcome]),
    nameOf(below?.trunk, below?.node),
  );
}
