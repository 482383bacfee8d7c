import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { wordsIn } from '#app/words/index.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { ReadKit } from '../parts/wire.js';
import { foundAddress, useEntering } from './entering.js';
import { endingInWords, entriesOf } from './entries-of.js';
import { FIELD_WORDS } from './field-words.js';
import { KitNodeField, nameNodesIn, useNodeOfAddress } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import { type LookablePart, partInWords, partsAt } from '../parts/lookable-parts.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';
import { standAt } from './use-plan.js';

/** A look at any part: sound, or faulty and then mended. */
export function LookForm({ kept, subject, home }: FieldTicketProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { person } = useField();
  const { enter, failure } = useEntering(subject);
  const { query, route } = useLocation();
  const { ticket, kit } = kept.value;
  const [node, setNode] = useState<NodeChosen | undefined>(useNodeOfAddress());
  const words = wordsIn(PAGE_LANGUAGE);
  const { settings } = FIELD_WORDS;
  const nameOf = (part: LookablePart) => partInWords(part, { words, settings }, nameNodesIn(kit));
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
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.menu.part}
      </h1>
      <KitNodeField
        label={FIELD_WORDS.where}
        kit={kit}
        value={node}
        onValue={setNode}
        none={words.headEnd}
      />
      {failure !== undefined && <p class="error">{failure}</p>}
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
    </section>
  );
}

/** What is set for each group of rooms is looked at in the office, with the desk. */
function partsIn(kit: ReadKit, node: NodeChosen | undefined): LookablePart[] {
  return partsAt(kit.drawing.trunks, node).filter(({ group }) => group === null);
}
