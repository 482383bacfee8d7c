import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import type { FunctionName } from '#app/locator/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import { TriedField } from '../parts/tried-field.js';
import type { ReadKit } from '../parts/wire.js';
import { type EnteringOf, useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { entriesOf } from './entries-of.js';
import { FIELD_WORDS } from './field-words.js';
import { KitNodeField, nameNodesIn, useNodeOfAddress } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import type { ToEnter } from './outbox-keeper.js';
import type { KeptTicket } from './kept-work.js';
import type { OutboxEntry } from './outbox.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';
import { standAt } from './use-plan.js';

const OUTCOMES = ['works', 'weak', 'fails'] as const;

/** Of the one word that a report from here holds. */
const WORD = {
  trunk: '/observations/0/trunk',
  node: '/observations/0/node',
  below: '/observations/0/disconnectedBelow',
  function: '/observations/0/function',
  outcome: '/observations/0/outcome',
} as const;

interface HeardBefore extends NodeChosen {
  function: FunctionName;
  disconnectedBelow?: string;
}

function heardBefore(instead: OutboxEntry | undefined): Partial<HeardBefore> {
  return (instead?.body['observations'] as HeardBefore[] | undefined)?.[0] ?? {};
}

/** What is chosen: as the address says, as it was before where that was refused, or as it is likeliest. */
function useHeard({ ticket }: KeptTicket, instead: OutboxEntry | undefined) {
  const { query } = useLocation();
  const { trunk, node: room, disconnectedBelow, ...before } = heardBefore(instead);
  const isOff = query['off'] !== undefined || disconnectedBelow !== undefined;
  const nodeOn = (node: string | undefined): NodeChosen | undefined =>
    trunk === undefined || node === undefined ? undefined : { trunk, node };
  const [node, setNode] = useState(useNodeOfAddress() ?? nodeOn(room));
  const [below, setBelow] = useState(nodeOn(disconnectedBelow));
  const likeliest = ticket.stillToProve[0]?.function ?? 'announcement';
  const [name, setName] = useState<FunctionName>(before.function ?? likeliest);
  return { isOff, node, setNode, below, setBelow, name, setName };
}

/** Any function in any room; with cable taken off somewhere, if it was. */
export function HeardForm({ kept, subject, home }: FieldTicketProps) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, instead, wrong } = entering;
  const { route } = useLocation();
  const { ticket, kit } = kept.value;
  const heard = useHeard(kept.value, instead);
  const { isOff, node, below, name } = heard;
  const isWalkTest = instead?.path.endsWith('/walk-tests') === true;
  const isReady = node !== undefined && (!isOff || below?.trunk === node.trunk);
  const say = (outcome: (typeof OUTCOMES)[number]) => {
    if (node === undefined) return;
    const off = isOff && below !== undefined ? { disconnectedBelow: below.node } : {};
    const record = { kind: 'heard' as const, ...node, function: name, outcome, ...off };
    const nameOf = nameNodesIn(kit);
    const { tried, [outcome]: sounded } = PAGE_WORDS.functions[name];
    const room = nameOf(node.trunk, node.node);
    const words =
      below === undefined || !isOff
        ? FIELD_WORDS.heardWords(room, tried, sounded)
        : FIELD_WORDS.heardOffWords(room, tried, sounded, nameOf(below.trunk, below.node));
    standAt(ticket.id, node);
    const entered = entriesOf([record], words, { ticketId: ticket.id, name: person.name });
    if (!isWalkTest) return enter(entered, () => route(home));
    enter(entered.map(asWalkTest), () => route(`${home}/walk-test`));
  };
  return (
    <EntrySection
      title={isOff ? FIELD_WORDS.menu.off : FIELD_WORDS.menu.room}
      entering={entering}
      fields={Object.values(WORD)}
    >
      <HeardFields {...heard} kit={kit} wrong={wrong} />
      <div class="endings">
        {OUTCOMES.map((outcome) => (
          <button
            key={outcome}
            type="button"
            class="ending"
            aria-disabled={!isReady}
            onClick={() => isReady && say(outcome)}
          >
            {PAGE_WORDS.functions[name][outcome]}
          </button>
        ))}
      </div>
      {!isReady && <p class="hint">{FIELD_WORDS.chooseFirst}</p>}
    </EntrySection>
  );
}

/** A room of a walk test that was refused stays one. */
function asWalkTest({ path, body, words }: ToEnter): ToEnter {
  const { saidBy, observations } = body;
  return { path: path.replace(/reports$/, 'walk-tests'), body: { saidBy, observations }, words };
}

interface HeardFieldsProps extends ReturnType<typeof useHeard> {
  kit: ReadKit;
  wrong: EnteringOf['wrong'];
}

function HeardFields({ kit, wrong, isOff, ...heard }: HeardFieldsProps) {
  return (
    <>
      {isOff && (
        <KitNodeField
          label={FIELD_WORDS.offAfter}
          kit={kit}
          value={heard.below}
          onValue={heard.setBelow}
          error={wrong(WORD.below)}
        />
      )}
      <KitNodeField
        label={FIELD_WORDS.room}
        kit={kit}
        value={heard.node}
        onValue={heard.setNode}
        error={wrong(WORD.node, WORD.trunk)}
      />
      <TriedField
        legend={FIELD_WORDS.whatTried}
        value={heard.name}
        onValue={heard.setName}
        error={wrong(WORD.function, WORD.outcome)}
      />
    </>
  );
}
