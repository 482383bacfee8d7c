import { useLocation } from 'preact-iso';
import { useId, useState } from 'preact/hooks';
import { LOOP_CORES } from '#app/locator/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import { FieldComplaint, TextField } from '../parts/text-field.js';
import type { ReadKit } from '../parts/wire.js';
import { Choice } from '../parts/choice.js';
import { type EnteringOf, useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import { KitNodeField, nameNodesIn, useNodeOfAddress } from './kit-node-field.js';
import type { NodeChosen } from '../parts/node-field.js';
import type { KeptTicket } from './kept-work.js';
import type { OutboxEntry } from './outbox.js';
import type { FieldTicketProps } from './ticket-page.js';
import {
  MEASURED,
  type Measured,
  amountTyped,
  numberTyped,
  PAD,
  padKeyOf,
  press,
  usualUncertainty,
} from '../parts/typed-number.js';
import { useField } from './use-field.js';

const KINDS = Object.keys(MEASURED) as Measured[];

/** A number off a meter, typed with the thumb. */
export function ReadingForm({ kept, subject, home }: FieldTicketProps) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, instead, wrong } = entering;
  const before = readBefore(instead);
  const { route } = useLocation();
  const { ticket, kit } = kept.value;
  const what = useWhat(kept.value, before);
  const { kind, node, loop } = what;
  const [typed, setTyped] = useState(before.typed ?? '');
  const [own, setOwn] = useState(before.own ?? '');
  const value = numberTyped(typed);
  const { unit } = MEASURED[kind];
  const said = amountTyped(own);
  const uncertainty = said ?? usualUncertainty(kind, value ?? 0);
  const where = whereRead(kind, { node, loop }, kit);
  const isReady = value !== null && where !== null && said !== undefined;
  const save = () => {
    if (value === null || where === null || said === undefined) return;
    const reading = readingOf(kind, { node, loop, value, uncertainty });
    const takenBy = { name: person.name, kind: 'technician' };
    const words = FIELD_WORDS.readingWords(where, `${typed} ${unit}`);
    enter([{ path: `/tickets/${ticket.id}/readings`, body: { takenBy, reading }, words }], () =>
      route(home),
    );
  };
  return (
    <EntrySection title={FIELD_WORDS.menu.reading} entering={entering} fields={READING_FIELDS}>
      <WhatFields {...what} kit={kit} wrong={wrong} />
      <Pad
        typed={typed}
        onTyped={setTyped}
        shown={`${unit} ± ${uncertainty} ${unit}`}
        error={wrong('/reading/volts', '/reading/ohms')}
      />
      <TextField
        label={FIELD_WORDS.uncertainty(unit)}
        hint={FIELD_WORDS.uncertaintyHint}
        value={own}
        onValue={setOwn}
        autocomplete="off"
        inputMode="decimal"
        error={
          said === undefined
            ? FIELD_WORDS.uncertaintyNumber
            : wrong('/reading/uncertaintyVolts', '/reading/uncertaintyOhms')
        }
      />
      <button type="button" class="main" aria-disabled={!isReady} onClick={save}>
        {FIELD_WORDS.enter}
      </button>
      {!isReady && <p class="hint">{FIELD_WORDS.chooseFirst}</p>}
    </EntrySection>
  );
}

/** What was measured, and where. */
function useWhat({ ticket, kit }: KeptTicket, before: ReadBefore) {
  const [kind, setKind] = useState<Measured>(before.kind ?? 'supply-volts');
  const [node, setNode] = useState(useNodeOfAddress() ?? before.node);
  const trunk = ticket.trunks[0] ?? kit.drawing.trunks[0]?.trunk ?? '';
  const [loop, setLoop] = useState<Loop>(before.loop ?? { trunk, core: 'supply' });
  return { kind, setKind, node, setNode, loop, setLoop };
}

interface WhatFieldsProps extends ReturnType<typeof useWhat> {
  kit: ReadKit;
  wrong: EnteringOf['wrong'];
}

function WhatFields({ kit, wrong, ...what }: WhatFieldsProps) {
  return (
    <>
      <Choice
        legend={FIELD_WORDS.whatMeasured}
        names={FIELD_WORDS.measured}
        of={KINDS}
        value={what.kind}
        onValue={what.setKind}
      />
      {what.kind === 'supply-volts' ? (
        <KitNodeField
          label={FIELD_WORDS.where}
          kit={kit}
          value={what.node}
          onValue={what.setNode}
          error={wrong('/reading/node', '/reading/trunk')}
        />
      ) : (
        <LoopFields kit={kit} loop={what.loop} onLoop={what.setLoop} wrong={wrong} />
      )}
    </>
  );
}

const READING_FIELDS = [
  ...['node', 'trunk', 'core', 'volts', 'ohms', 'uncertaintyVolts', 'uncertaintyOhms'],
].map((name) => `/reading/${name}`);

interface Numbers {
  kind: Measured;
  volts: number;
  ohms: number;
  uncertaintyVolts: number;
  uncertaintyOhms: number;
}

interface ReadBefore {
  kind?: Measured;
  node?: NodeChosen;
  loop?: Loop;
  typed?: string;
  own?: string;
}

/** A reading that was refused, as it was typed. */
function readBefore(instead: OutboxEntry | undefined): ReadBefore {
  const sent = instead?.body['reading'] as Partial<NodeChosen & Loop & Numbers> | undefined;
  if (sent === undefined) return {};
  const { kind, trunk = '', node, core } = sent;
  const value = sent.volts ?? sent.ohms;
  const own = sent.uncertaintyVolts ?? sent.uncertaintyOhms;
  const text = (number: number | undefined) => (number === undefined ? '' : String(number));
  return {
    ...(kind !== undefined && { kind }),
    ...(node !== undefined && { node: { trunk, node } }),
    ...(core !== undefined && { loop: { trunk, core } }),
    typed: text(value),
    own: own === usualUncertainty(kind ?? 'supply-volts', value ?? 0) ? '' : text(own),
  };
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
  wrong: EnteringOf['wrong'];
}

function LoopFields({ kit, loop, onLoop, wrong }: LoopFieldsProps) {
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
        error={wrong('/reading/trunk')}
      />
      <Choice
        legend={FIELD_WORDS.whichCore}
        names={FIELD_WORDS.cores}
        of={LOOP_CORES}
        value={loop.core}
        onValue={(core) => onLoop({ ...loop, core })}
        error={wrong('/reading/core')}
      />
    </>
  );
}

interface PadProps {
  typed: string;
  onTyped: (typed: string) => void;
  /** The unit, and how sure the number is. */
  shown: string;
  error: string | undefined;
}

function Pad({ typed, onTyped, shown, error }: PadProps) {
  const id = useId();
  const typeWith = (event: KeyboardEvent) => {
    const key = padKeyOf(event.key);
    if (key === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    onTyped(press(typed, key));
  };
  return (
    <>
      <output
        class="typed"
        aria-live="polite"
        tabIndex={error === undefined ? undefined : -1}
        aria-describedby={error && `${id}-error`}
        data-wrong={error !== undefined}
      >
        {typed === '' ? '–' : typed} {shown}
      </output>
      <FieldComplaint id={`${id}-error`} reason={error} />
      <div class="pad" onKeyDown={typeWith}>
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
