import { useId } from 'preact/hooks';
import { PAGE_WORDS } from './language.js';
import { FieldComplaint } from './text-field.js';

export interface NodeChosen {
  trunk: string;
  node: string;
}

interface NodeFieldProps {
  label: string;
  cables: readonly { trunk: string; nodes: readonly { node: string; room: string | null }[] }[];
  value: NodeChosen | undefined;
  onValue: (chosen: NodeChosen | undefined) => void;
  /** What stands for none of them. */
  none: string;
  /** Why the choice will not do. */
  error?: string | undefined;
}

/** A station or junction box of the drawing, in the order of the cable. */
export function NodeField({ label, cables, value, onValue, none, error }: NodeFieldProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value === undefined ? '' : nodeKey(value)}
        aria-describedby={error && `${id}-error`}
        aria-invalid={error ? 'true' : undefined}
        data-wrong={error !== undefined}
        onChange={(event) => onValue(nodeOf(event.currentTarget.value))}
      >
        <option value="">{none}</option>
        {cables.map(({ trunk, nodes }) => (
          <optgroup key={trunk} label={PAGE_WORDS.line(trunk)}>
            {nodes.map(({ node, room }) => (
              <option key={node} value={nodeKey({ trunk, node })}>
                {room === null ? node : `${room} (${node})`}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
      <FieldComplaint id={`${id}-error`} reason={error} />
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
