import { useId } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { NameNode } from '#app/words/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import type { ReadKit } from '../parts/wire.js';
import { FIELD_WORDS } from './field-words.js';

export interface NodeChosen {
  trunk: string;
  node: string;
}

interface NodeFieldProps {
  label: string;
  kit: ReadKit;
  value: NodeChosen | undefined;
  onValue: (chosen: NodeChosen | undefined) => void;
  /** What stands for none; left out: one must be chosen. */
  none?: string;
}

/** A station or junction box of the drawing, in the order of the cable. */
export function NodeField({ label, kit, value, onValue, none }: NodeFieldProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value === undefined ? '' : nodeKey(value)}
        onChange={(event) => onValue(nodeOf(event.currentTarget.value))}
      >
        <option value="">{none ?? FIELD_WORDS.choose}</option>
        {kit.drawing.trunks.map(({ trunk, nodes }) => (
          <optgroup key={trunk} label={PAGE_WORDS.line(trunk)}>
            {nodes.map(({ node, room }) => (
              <option key={node} value={nodeKey({ trunk, node })}>
                {room === null ? node : `${room} (${node})`}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </div>
  );
}

function nodeKey({ trunk, node }: NodeChosen): string {
  return `${trunk}/${node}`;
}

export function nodeOf(key: string | undefined): NodeChosen | undefined {
  const [trunk, node] = (key ?? '').split('/');
  return trunk === undefined || node === undefined ? undefined : { trunk, node };
}

/** The room that the address names, as the label of a unit does. */
export function useNodeOfAddress(): NodeChosen | undefined {
  return nodeOf(useLocation().query['at']);
}

export function nameNodesIn(kit: ReadKit): NameNode {
  return (trunk, node) => {
    const drawn = kit.drawing.trunks
      .find((one) => one.trunk === trunk)
      ?.nodes.find((one) => one.node === node);
    return drawn?.room ?? PAGE_WORDS.unit(node);
  };
}
