import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { wordsIn } from '#app/words/index.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import type { ReadKit } from '../parts/wire.js';
import { foundAddress, useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { endingInWords, entriesOf } from './entries-of.js';
import { FIELD_WORDS } from './field-words.js';
import { KitNodeField, nameNodesIn, useNodeOfAddress } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import { type LookablePart, partInWords, partsAt } from '../parts/lookable-parts.js';
import type { OutboxEntry } from './outbox.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';
import { standAt } from './use-plan.js';

const CALLED = { words: wordsIn(PAGE_LANGUAGE), settings: FIELD_WORDS.settings };

/** Of a look, and of what was found. */
const LOOK_FIELDS = ['/looks', '/place', '/component', '/mode'];

/** Where the entry that was refused is of. */
function nodeBefore(instead: OutboxEntry | undefined): NodeChosen | undefined {
  const [look] = (instead?.body['looks'] ?? []) as Pick<LookablePart, 'place'>[];
  const place = look?.place ?? (instead?.body['place'] as LookablePart['place'] | undefined);
  if (place?.kind === 'station') return { trunk: place.trunk, node: place.node };
  return place?.kind === 'span' ? { trunk: place.trunk, node: place.to } : undefined;
}

/** A look at any part: sound, or faulty and then mended. */
export function LookForm({ kept, subject, home }: FieldTicketProps) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, instead, wrong } = entering;
  const { query, route } = useLocation();
  const { ticket, kit } = kept.value;
  const [node, setNode] = useState(useNodeOfAddress() ?? nodeBefore(instead));
  const nameOf = (part: LookablePart) => partInWords(part, CALLED, nameNodesIn(kit));
  const { words } = CALLED;
  const sound = (one: LookablePart) => {
    const { place, part } = one;
    const record = { kind: 'look' as const, place, part, seen: 'sound' as const };
    standAt(ticket.id, node ?? { trunk: '', node: null });
    const said = endingInWords(nameOf(one), words.walk.sound);
    enter(entriesOf([record], said, { ticketId: ticket.id, name: person.name }), () => route(home));
  };
  const faulty = ({ place, component, mode }: LookablePart) => {
    const found = JSON.stringify({ kind: 'finding', place, component, mode });
    route(foundAddress(home, found, query['instead']));
  };
  return (
    <EntrySection title={FIELD_WORDS.menu.part} entering={entering} fields={LOOK_FIELDS}>
      <KitNodeField
        label={FIELD_WORDS.where}
        kit={kit}
        value={node}
        onValue={setNode}
        none={words.headEnd}
        error={wrong(...LOOK_FIELDS)}
      />
      <ul class="plain">
        {partsIn(kit, node).map((part) => (
          <li key={JSON.stringify(part)} class="part">
            <span>{nameOf(part)}</span>
            <span class="buttons">
              <button
                type="button"
                aria-label={endingInWords(nameOf(part), words.walk.sound)}
                onClick={() => sound(part)}
              >
                {words.walk.sound}
              </button>
              <button
                type="button"
                aria-label={endingInWords(nameOf(part), words.walk.atFault)}
                onClick={() => faulty(part)}
              >
                {words.walk.atFault}
              </button>
            </span>
          </li>
        ))}
      </ul>
    </EntrySection>
  );
}

/** What is set for each group of rooms is looked at in the office, with the desk. */
function partsIn(kit: ReadKit, node: NodeChosen | undefined): LookablePart[] {
  return partsAt(kit.drawing.trunks, node).filter(({ group }) => group === null);
}
