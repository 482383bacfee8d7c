import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { LOOP_CORES } from '#app/locator/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { ReadKit } from '../parts/wire.js';
import { Choice } from '../parts/choice.js';
import { useEntering } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import { KitNodeField, nameNodesIn, useNodeOfAddress } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import type { FieldTicketProps } from './ticket-page.js';
import {
  MEASURED,
  type Measured,
  numberTyped,
  PAD,
  press,
  usualUncertainty,
} from '../parts/typed-number.js';
import { useField } from './use-field.js';

const KINDS = Object.keys(MEASURED) as Measured[];

/** A number off a meter, typed with the thumb. */
export function ReadingForm({ kept, subject, home }: FieldTicketProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { person } = useField();
  const { enter, failure } = useEntering(subject);
  const { route } = useLocation();
  const { ticket, kit } = kept.value;
  const [kind, setKind] = useState<Measured>('supply-volts');
  const [node, setNode] = useState<NodeChosen | undefined>(useNodeOfAddress());
  const firstTrunk = ticket.trunks[0] ?? kit.drawing.trunks[0]?.trunk ?? '';
  const [loop, setLoop] = useState<Loop>({ trunk: firstTrunk, core: 'supply' });
  const [typed, setTyped] = useState('');
  const [own, setOwn] = useState('');
  const value = numberTyped(typed);
  const { unit } = MEASURED[kind];
  const uncertainty = numberTyped(own) ?? usualUncertainty(kind, value ?? 0);
  const where = whereRead(kind, { node, loop }, kit);
  const isReady = value !== null && where !== null && uncertainty > 0;
  const save = () => {
    if (value === null || where === null || uncertainty <= 0) return;
    const reading = readingOf(kind, { node, loop, value, uncertainty });
    const takenBy = { name: person.name, kind: 'technician' };
    const words = FIELD_WORDS.readingWords(where, `${typed} ${unit}`);
    enter([{ path: `/tickets/${ticket.id}/readings`, body: { takenBy, reading }, words }], () =>
      route(home),
    );
  };
  return (
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.menu.reading}
      </h1>
      <Choice
        legend={FIELD_WORDS.whatMeasured}
        names={FIELD_WORDS.measured}
        of={KINDS}
        value={kind}
        onValue={setKind}
      />
      {kind === 'supply-volts' ? (
        <KitNodeField label={FIELD_WORDS.where} kit={kit} value={node} onValue={setNode} />
      ) : (
        <LoopFields kit={kit} loop={loop} onLoop={setLoop} />
      )}
      <Pad typed={typed} onTyped={setTyped} shown={`${unit} ± ${uncertainty} ${unit}`} />
      <TextField
        label={FIELD_WORDS.uncertainty(unit)}
        hint={FIELD_WORDS.uncertaintyHint}
        value={own}
        onValue={setOwn}
        autocomplete="off"
      />
      {failure !== undefined && <p class="error">{failure}</p>}
      <button type="button" class="main" aria-disabled={!isReady} onClick={save}>
        {FIELD_WORDS.enter}
      </button>
      {!isReady && <p class="hint">{FIELD_WORDS.chooseFirst}</p>}
    </section>
  );
}

interface Read {
  node: NodeChosen | undefined;
  loop: Loop;
  value: number;
  uncertainty: number;
}

/** In words; null: it is not said yet. */
function whereRead(kind: Measured, { node, loop }: Pick<Read, 'node' | 'loop'>, kit: ReadKit) {
  if (kind === 'loop-ohms') return PAGE_WORDS.line(loop.trunk);
  return node === undefined ? null : nameNodesIn(kit)(node.trunk, node.node);
}

/** As a ticket takes it. */
function readingOf(kind: Measured, { node, loop, value, uncertainty }: Read) {
  return kind === 'supply-volts'
    ? { kind, ...node, volts: value, uncertaintyVolts: uncertainty }
    : { kind, ...loop, ohms: value, uncertaintyOhms: uncertainty };
}

interface Loop {
  trunk: string;
  core: (typeof LOOP_CORES)[number];
}

interface LoopFieldsProps {
  kit: ReadKit;
  loop: Loop;
  onLoop: (loop: Loop) => void;
}

function LoopFields({ kit, loop, onLoop }: LoopFieldsProps) {
  const trunks = kit.drawing.trunks.map(({ trunk }) => trunk);
  const names = Object.fromEntries(trunks.map((trunk) => [trunk, PAGE_WORDS.line(trunk)]));
  return (
    <>
      <Choice
        legend={FIELD_WORDS.whichLine}
        names={names}
        of={trunks}
        value={loop.trunk}
        onValue={(trunk) => onLoop({ ...loop, trunk })}
      />
      <Choice
        legend={FIELD_WORDS.whichCore}
        names={FIELD_WORDS.cores}
        of={LOOP_CORES}
        value={loop.core}
        onValue={(core) => onLoop({ ...loop, core })}
      />
    </>
  );
}

interface PadProps {
  typed: string;
  onTyped: (typed: string) => void;
  /** The unit, and how sure the number is. */
  shown: string;
}

function Pad({ typed, onTyped, shown }: PadProps) {
  return (
    <>
      <output class="typed" aria-live="polite">
        {typed === '' ? '–' : typed} {shown}
      </output>
      <div class="pad">
        {PAD.map((key) => (
          <button
            key={key}
            type="button"
            aria-label={key === '⌫' ? FIELD_WORDS.takeBack : undefined}
            onClick={() => onTyped(press(typed, key))}
          >
            {key}
          </button>
        ))}
      </div>
    </>
  );
}
