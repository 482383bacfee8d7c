import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { countEntry } from './drawing-first.js';
import { useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import { KitNodeField, nameNodesIn, useNodeOfAddress } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';
import { standAt } from './use-plan.js';

/** More than anybody has seen at one room. */
const MOST_CABLES = 9;
const COUNTS = Array.from({ length: MOST_CABLES }, (_, at) => at + 1);

/** How many cables enter or leave at a room: whether the trunk is laid as drawn. */
export function CablesForm({ kept, subject, home }: FieldTicketProps) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, wrong } = entering;
  const { route } = useLocation();
  const { ticket, kit } = kept.value;
  const [node, setNode] = useState<NodeChosen | undefined>(useNodeOfAddress());
  const say = (count: number) => {
    if (node === undefined) return;
    standAt(ticket.id, node);
    const noting = { ticketId: ticket.id, name: person.name };
    const room = nameNodesIn(kit)(node.trunk, node.node);
    enter([countEntry(node, count, room, noting)], () => route(home));
  };
  return (
    <EntrySection title={FIELD_WORDS.menu.cables} entering={entering} fields={['/step', '/note']}>
      <p class="hint">{FIELD_WORDS.cablesHint}</p>
      <KitNodeField
        label={FIELD_WORDS.where}
        kit={kit}
        value={node}
        onValue={setNode}
        error={wrong('/step', '/note')}
      />
      <div class="pad">
        {COUNTS.map((count) => (
          <button
            key={count}
            type="button"
            aria-label={FIELD_WORDS.soManyCables(count)}
            aria-disabled={node === undefined}
            onClick={() => say(count)}
          >
            {count}
          </button>
        ))}
      </div>
      {node === undefined && <p class="hint">{FIELD_WORDS.chooseFirst}</p>}
    </EntrySection>
  );
}
