import {
  cablesCheck,
  NAMES_AS_DRAWN,
  NAMES_SWAPPED,
  namesCheck,
} from '#app/locating/settled-drawing.js';
import type { SuspectedOnKit } from '#app/walks/plan-on-kit.js';
import { useEntering } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import { nameNodesIn } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import type { ToEnter } from './outbox-keeper.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';

interface Noting {
  ticketId: string;
  name: string;
}

/** So many cables at a node: a note by which plan and desk go. */
export function countEntry(
  { trunk, node }: NodeChosen,
  count: number,
  room: string,
  noting: Noting,
): ToEnter {
  const step = { check: cablesCheck(trunk, node), ending: count };
  return noteOf(step, FIELD_WORDS.cablesCounted(room, count), noting);
}

function noteOf(step: { check: string; ending: number }, words: string, by: Noting): ToEnter {
  const saidBy = { name: by.name, kind: 'technician' };
  return { path: `/tickets/${by.ticketId}/notes`, body: { saidBy, note: words, step }, words };
}

interface DrawingFirstProps extends Pick<FieldTicketProps, 'kept' | 'subject' | 'home'> {
  suspected: SuspectedOnKit;
}

/** What settles the drawing, where it is likelier wrong than not, and one touch for what was seen there. */
export function DrawingFirst({ suspected, kept, subject, home }: DrawingFirstProps) {
  const { drawingFirst, drawingLook: look } = suspected;
  const { person } = useField();
  const { enter, failure } = useEntering(subject);
  if (drawingFirst === null) return null;
  const { kit, ticket } = kept.value;
  const noting = { ticketId: ticket.id, name: person.name };
  const nameOf = nameNodesIn(kit);
  const endings: [words: string, entry: ToEnter][] = [];
  if (look?.node !== undefined) {
    const { trunk, node, asDrawn = 0, alternative = 0 } = look;
    for (const count of [asDrawn, alternative])
      endings.push([
        FIELD_WORDS.soManyCables(count),
        countEntry({ trunk, node }, count, nameOf(trunk, node), noting),
      ]);
  }
  if (look?.nodes !== undefined) {
    const { trunk, nodes } = look;
    const rooms = nodes.map((node) => nameOf(trunk, node)).join(', ');
    const check = namesCheck(trunk, nodes);
    const { asDrawn, swapped, seen } = FIELD_WORDS.names;
    endings.push(
      [asDrawn, noteOf({ check, ending: NAMES_AS_DRAWN }, seen(rooms, asDrawn), noting)],
      [swapped, noteOf({ check, ending: NAMES_SWAPPED }, seen(rooms, swapped), noting)],
    );
  }
  return (
    <section class="notice">
      <p>{drawingFirst}</p>
      <p class="buttons">
        {endings.map(([words, entry]) => (
          <button key={words} type="button" onClick={() => enter([entry])}>
            {words}
          </button>
        ))}
        {look?.node !== undefined && (
          <a class="button" href={`${home}/cables?at=${look.trunk}/${look.node}`}>
            {FIELD_WORDS.otherCount}
          </a>
        )}
      </p>
      {failure !== undefined && (
        <p class="error" role="alert">
          {failure}
        </p>
      )}
    </section>
  );
}
