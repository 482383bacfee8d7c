import type { FieldError } from '../shared/domain-error.js';
import { mergePatch } from '../shared/merge-patch.js';
import type { AsBuilt } from './as-built.js';
import { checkAsBuilt } from './as-built-check.js';
import { changeReaders } from './as-built-fields.js';
import { type Complaint, type Path, type Raw, readFields, toPointer } from './read-fields.js';

/** Who changes the record, and why. */
export interface ChangeNote {
  changedBy: string;
  reason: string;
}

/** What the record is to be, who changes it and why. */
export interface AsBuiltChange extends ChangeNote {
  asBuilt: AsBuilt;
}

/** A whole record as it was sent: the change, or everything that is wrong, by JSON pointer. */
export function readReplacement(body: Raw): AsBuiltChange | { errors: FieldError[] } {
  const { changedBy, reason, ...drawing } = body;
  const complaints: Complaint[] = [];
  const note = readFields(changeReaders, { changedBy, reason }, [], complaints);
  const other = Object.keys(drawing).filter((field) => field !== 'headEnd' && field !== 'trunks');
  complaints.push(...other.map((field) => ({ path: [field], reason: 'is not a field here' })));
  const checked = checkAsBuilt(drawing, (trunk, node) =>
    toPointer(['trunks', trunk, 'nodes', node]),
  );
  complaints.push(...checked.complaints);
  if (complaints.length === 0 && 'asBuilt' in checked) {
    return { ...(note as ChangeNote), asBuilt: checked.asBuilt };
  }
  return {
    errors: complaints.map(({ path, reason: why }) => ({ field: toPointer(path), reason: why })),
  };
}

/**
 * A merge patch (RFC 7396) of one node of the current record, together with who and why; undefined
 * when the record has no such node.
 */
export function readNodePatch(
  current: AsBuilt,
  place: { trunk: string; node: string },
  body: Raw,
): AsBuiltChange | { errors: FieldError[] } | undefined {
  const trunkIndex = current.trunks.findIndex(({ trunk }) => trunk === place.trunk);
  const nodes = current.trunks[trunkIndex]?.nodes ?? [];
  const nodeIndex = nodes.findIndex(({ node }) => node === place.node);
  if (nodeIndex < 0) return undefined;

  const { changedBy, reason, ...patch } = body;
  const complaints: Complaint[] = [];
  const note = readFields(changeReaders, { changedBy, reason }, [], complaints);
  if ('node' in patch) {
    complaints.push({
      path: ['node'],
      reason: 'cannot change here: send the whole record instead',
    });
  }
  const patched = mergePatch({ ...nodes[nodeIndex] }, patch);
  // A patch's null means the head-end; only what a new drawing leaves out is the node before.
  patched['fedFrom'] ??= null;
  // A length that is given anew is not the guess that stood there.
  if ('cableMetres' in patch && !('isLengthGuessed' in patch)) delete patched['isLengthGuessed'];
  const raw = {
    headEnd: current.headEnd,
    trunks: current.trunks.with(trunkIndex, {
      ...(current.trunks[trunkIndex] as AsBuilt['trunks'][number]),
      nodes: nodes.with(nodeIndex, { ...patched, node: place.node } as (typeof nodes)[number]),
    }),
  };
  const checked = checkAsBuilt(
    raw,
    (trunk, node) => current.trunks[trunk]?.nodes[node]?.node ?? '',
  );
  complaints.push(
    ...checked.complaints.map(({ path, reason: why }) => ({
      path: [fieldOfNode(path)],
      reason: why,
    })),
  );
  if (complaints.length === 0 && 'asBuilt' in checked) {
    return { ...(note as ChangeNote), asBuilt: checked.asBuilt };
  }
  return {
    errors: complaints.map(({ path, reason: why }) => ({ field: toPointer(path), reason: why })),
  };
}

/** Only the patched node can have made anything wrong, also what is found at another place. */
function fieldOfNode(path: Path): string {
  const field = String(path.at(-1));
  return field === 'nodes' ? 'kind' : field;
}
