import type { SaidHere, SaidOutcome } from '../../parts/drawing/drawn-facts.js';
import type { NodeAt } from '../../parts/drawing/trunk-drawing.js';
import type { Reporting, ToldFunction } from '../../parts/wire.js';

/** What a caller said so far. */
export interface CallDraft {
  tried: ToldFunction | undefined;
  said: (NodeAt & { outcome: SaidOutcome })[];
  caller: string;
  remark: string;
  whyUrgent: string;
  callBack: string;
}

export const EMPTY_CALL: CallDraft = {
  tried: undefined,
  said: [],
  caller: '',
  remark: '',
  whyUrgent: '',
  callBack: '',
};

const NEXT: Readonly<Record<SaidOutcome | 'unsaid', SaidOutcome | null>> = {
  unsaid: 'fails',
  fails: 'works',
  works: 'weak',
  weak: null,
};

/** Touched once: silent; then heard, weak, and not said again. */
export function touchRoom(draft: CallDraft, { trunk, node }: NodeAt): CallDraft {
  const one = draft.said.find((said) => said.trunk === trunk && said.node === node);
  return setRoom(draft, { trunk, node }, NEXT[one?.outcome ?? 'unsaid']);
}

export function setRoom(
  draft: CallDraft,
  { trunk, node }: NodeAt,
  outcome: SaidOutcome | null,
): CallDraft {
  const others = draft.said.filter((one) => one.trunk !== trunk || one.node !== node);
  return { ...draft, said: outcome === null ? others : [...others, { trunk, node, outcome }] };
}

/** As the drawing shows it; before anything was tried, as if it were the announcement. */
export function asSaid({ said, tried }: CallDraft): SaidHere[] {
  return said.map((one) => ({ ...one, function: tried ?? 'announcement' }));
}

/** Who also says which rooms were heard went through them; silent rooms alone were volunteered. */
export function toReporting(draft: CallDraft): Omit<Reporting, 'id'> {
  const { caller, remark, whyUrgent, callBack } = draft;
  return {
    saidBy: { name: caller.trim(), kind: 'office' },
    note: remark.trim() || null,
    urgentReason: whyUrgent.trim() || null,
    callBackPhone: callBack.trim() || null,
    how: draft.said.some(({ outcome }) => outcome === 'works') ? 'gone-through' : 'volunteered',
    observations: asSaid(draft),
  };
}
