import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import type { FunctionName } from '#app/locator/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import { TriedField } from '../parts/tried-field.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useEntering } from './entering.js';
import { entriesOf } from './entries-of.js';
import { FIELD_WORDS } from './field-words.js';
import { KitNodeField, nameNodesIn, useNodeOfAddress } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';
import { standAt } from './use-plan.js';

const OUTCOMES = ['works', 'weak', 'fails'] as const;

/** Any function in any room; with cable taken off somewhere, if it was. */
export function HeardForm({ kept, subject, home }: FieldTicketProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { person } = useField();
  const { enter, failure } = useEntering(subject);
  const { query, route } = useLocation();
  const { ticket, kit } = kept.value;
  const isOff = query['off'] !== undefined;
  const [node, setNode] = useState<NodeChosen | undefined>(useNodeOfAddress());
  const [below, setBelow] = useState<NodeChosen>();
  const [name, setName] = useState<FunctionName>(
    ticket.stillToProve[0]?.function ?? 'announcement',
  );
  const isReady = node !== undefined && (!isOff || below?.trunk === node.trunk);
  const say = (outcome: (typeof OUTCOMES)[number]) => {
    if (node === undefined) return;
    const off = isOff && below !== undefined ? { disconnectedBelow: below.node } : {};
    const record = { kind: 'heard' as const, ...node, function: name, outcome, ...off };
    const nameOf = nameNodesIn(kit);
    const { tried, [outcome]: heard } = PAGE_WORDS.functions[name];
    const room = nameOf(node.trunk, node.node);
    const words =
      below === undefined || !isOff
        ? FIELD_WORDS.heardWords(room, tried, heard)
        : FIELD_WORDS.heardOffWords(room, tried, heard, nameOf(below.trunk, below.node));
    standAt(ticket.id, node);
    enter(entriesOf([record], words, { ticketId: ticket.id, name: person.name }), () =>
      route(home),
    );
  };
  return (
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {isOff ? FIELD_WORDS.menu.off : FIELD_WORDS.menu.room}
      </h1>
      {isOff && (
        <KitNodeField label={FIELD_WORDS.offAfter} kit={kit} value={below} onValue={setBelow} />
      )}
      <KitNodeField label={FIELD_WORDS.room} kit={kit} value={node} onValue={setNode} />
      <TriedField legend={FIELD_WORDS.whatTried} value={name} onValue={setName} error={undefined} />
      {failure !== undefined && <p class="error">{failure}</p>}
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
    </section>
  );
}
