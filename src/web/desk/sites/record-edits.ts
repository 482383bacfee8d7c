import { inCableOrder, type OtherWay, redrawn } from '../../parts/redrawn.js';
import type { ReadDrawnRecord } from '../../parts/wire.js';

type RecordedNode = ReadDrawnRecord['trunks'][number]['nodes'][number];

/** Metres as typed, or null where nobody knows them. */
type TypedNode = Omit<RecordedNode, 'cableMetres'> & { cableMetres: number | string | null };

const BLANK = {
  kind: 'station',
  fedFrom: null,
  cableType: null,
  cableMetres: null,
  isLengthGuessed: true,
  room: null,
  block: null,
  floor: null,
  unitModel: null,
  unitSerial: null,
  unitInstalledOn: null,
  groups: [],
  isOut: false,
  lacks: [],
} satisfies Partial<TypedNode>;

type ShownField = 'node' | keyof typeof BLANK;

/** A node while it is edited; what the record keeps of it besides, and nobody edits here, goes along as it is. */
export type DraftNode = Pick<TypedNode, ShownField> & Partial<Omit<TypedNode, ShownField>>;

export interface DraftTrunk {
  trunk: string;
  name: string;
  port: string | null;
  nodes: DraftNode[];
}

export type SetField = Exclude<keyof DraftNode, 'node' | 'fedFrom'>;

/** Where on the cable: in the span that feeds a node, or behind one; behind null is at the head-end. */
export type CablePlace = { before: string } | { behind: string | null };

/** One change to the record, by the codes of what it changes: it can be made again on what others saved meanwhile. */
export type RecordEdit = { trunk: string } & (
  | { kind: 'set'; node: string; field: SetField; value: DraftNode[SetField] }
  | { kind: 'rename'; node: string; to: string }
  | { kind: 'insert'; node: string; as: DraftNode['kind']; place: CablePlace }
  | { kind: 'move'; node: string; place: CablePlace }
  /** With all that it feeds. */
  | { kind: 'feed'; node: string; fedFrom: string | null }
  | { kind: 'remove'; node: string }
  | { kind: 'redraw'; way: OtherWay }
  | { kind: 'trunk'; node: string }
);

/** The trunks with one change; undefined where what it changes is not there. */
export function edited(trunks: readonly DraftTrunk[], edit: RecordEdit): DraftTrunk[] | undefined {
  if (edit.kind === 'trunk') {
    const isNew = trunks.every(({ trunk }) => trunk !== edit.trunk);
    const nodes = [{ ...BLANK, node: edit.node }];
    return isNew ? [...trunks, { trunk: edit.trunk, name: '', port: null, nodes }] : undefined;
  }
  const old = trunks.find(({ trunk }) => trunk === edit.trunk);
  const nodes = old && editedNodes(old.nodes, edit);
  if (old === undefined || nodes === undefined) return undefined;
  return trunks
    .map((one) => (one === old ? { ...one, nodes } : one))
    .filter((one) => one.nodes.length > 0);
}

function editedNodes(
  nodes: DraftNode[],
  edit: Exclude<RecordEdit, { kind: 'trunk' }>,
): DraftNode[] | undefined {
  if (edit.kind === 'redraw') return redrawn(nodes, edit.way);
  const own = nodes.find(({ node }) => node === edit.node);
  if (edit.kind === 'insert') {
    if (own !== undefined) return undefined;
    return placed(nodes, { ...BLANK, node: edit.node, kind: edit.as }, edit.place);
  }
  if (own === undefined) return undefined;
  switch (edit.kind) {
    case 'set':
      return nodes.map((one) => (one === own ? withField(one, edit) : one));
    case 'rename':
      return renamed(nodes, own.node, edit.to);
    case 'move':
      return placed(withoutNode(nodes, own), { ...own, cableMetres: null }, edit.place);
    case 'feed':
      if (behind(nodes, own.node).has(edit.fedFrom ?? '')) return undefined;
      return inCableOrder(
        nodes.map((one) => {
          return one === own ? { ...one, fedFrom: edit.fedFrom, isLengthGuessed: true } : one;
        }),
      );
    case 'remove':
      return withoutNode(nodes, own);
  }
}

function withField(
  node: DraftNode,
  { field, value }: Extract<RecordEdit, { kind: 'set' }>,
): DraftNode {
  const set = { ...node, [field]: value };
  // A length that is given is not the guess that stood there.
  return field === 'cableMetres' ? { ...set, isLengthGuessed: false } : set;
}

function renamed(nodes: readonly DraftNode[], from: string, to: string) {
  if (nodes.some(({ node }) => node === to)) return undefined;
  return nodes.map((one) => ({
    ...one,
    node: one.node === from ? to : one.node,
    fedFrom: one.fedFrom === from ? to : one.fedFrom,
  }));
}

/** What it fed is fed by what fed it, over both lengths. */
function withoutNode(nodes: readonly DraftNode[], gone: DraftNode): DraftNode[] {
  return nodes
    .filter((one) => one !== gone)
    .map((one) => {
      if (one.fedFrom !== gone.node) return one;
      const [own, before] = [metresOf(one.cableMetres), metresOf(gone.cableMetres)];
      return {
        ...one,
        fedFrom: gone.fedFrom,
        cableMetres: own === null || before === null ? null : inCentimetres(own + before),
        isLengthGuessed: one.isLengthGuessed || gone.isLengthGuessed,
      };
    });
}

/** In a span, each part of it has half the length, as a guess. */
function placed(
  nodes: readonly DraftNode[],
  node: DraftNode,
  place: CablePlace,
): DraftNode[] | undefined {
  const isGuess = { isLengthGuessed: true };
  if ('behind' in place) {
    const isThere = place.behind === null || nodes.some((one) => one.node === place.behind);
    if (!isThere) return undefined;
    return inCableOrder([...nodes, { ...node, ...isGuess, fedFrom: place.behind }]);
  }
  const next = nodes.find((one) => one.node === place.before);
  if (next === undefined) return undefined;
  const whole = metresOf(next.cableMetres);
  const half = { ...isGuess, cableMetres: whole === null ? null : inCentimetres(whole / 2) };
  return inCableOrder(
    nodes.flatMap((one) =>
      one === next
        ? [
            { ...node, ...half, fedFrom: next.fedFrom },
            { ...one, ...half, fedFrom: node.node },
          ]
        : [one],
    ),
  );
}

/** A node with everything that hangs behind it, by code. */
export function behind(nodes: readonly DraftNode[], code: string): Set<string> {
  const found = new Set([code]);
  for (const { node, fedFrom } of inCableOrder(nodes))
    if (fedFrom !== null && found.has(fedFrom)) found.add(node);
  return found;
}

/** Null where it is no number. */
export function metresOf(typed: number | string | null): number | null {
  if (typeof typed !== 'string') return typed;
  return /^\d+([.,]\d+)?$/.test(typed.trim()) ? Number(typed.trim().replace(',', '.')) : null;
}

function inCentimetres(metres: number): number {
  return Math.round(metres * 100) / 100;
}

/** All changes made on a record, and those that do not fit it any more. */
export function applied(
  record: Pick<ReadDrawnRecord, 'trunks'>,
  edits: readonly RecordEdit[],
): { trunks: DraftTrunk[]; unfit: RecordEdit[] } {
  let trunks: DraftTrunk[] = record.trunks;
  const unfit: RecordEdit[] = [];
  for (const edit of edits) {
    const next = edited(trunks, edit);
    if (next === undefined) unfit.push(edit);
    else trunks = next;
  }
  return { trunks, unfit };
}

/** One more change; typing on in a field is one change. */
export function withEdit(edits: readonly RecordEdit[], edit: RecordEdit): RecordEdit[] {
  const last = edits.at(-1);
  const isTypingOn =
    last?.kind === 'set' &&
    edit.kind === 'set' &&
    last.trunk === edit.trunk &&
    last.node === edit.node &&
    last.field === edit.field;
  return [...(isTypingOn ? edits.slice(0, -1) : edits), edit];
}

/** A code that no node of the trunk has: its letters and the next number. */
export function nextCode({ trunk, nodes }: DraftTrunk): string {
  const numbers = nodes.flatMap(({ node }) => {
    const [, letters, number] = /^(.*?)(\d+)$/.exec(node) ?? [];
    return letters === trunk && number !== undefined ? [Number(number)] : [];
  });
  return `${trunk}${Math.max(0, ...numbers) + 1}`;
}

/** As the service takes trunks: metres as numbers where they are some, and else as typed, which it refuses by name. */
export function asSent(trunks: readonly DraftTrunk[]) {
  return trunks.map(({ nodes, ...trunk }) => ({
    ...trunk,
    nodes: nodes.map((node) => {
      const { cableMetres } = node;
      const isBlank = typeof cableMetres === 'string' && cableMetres.trim() === '';
      return { ...node, cableMetres: isBlank ? null : (metresOf(cableMetres) ?? cableMetres) };
    }),
  }));
}
