import { useEffect, useMemo, useState } from 'preact/hooks';
import type { FunctionName, LocateResult } from '#app/locator/index.js';
import { KitThread } from '../../parts/computing/kit-thread.js';
import type { Supposed } from '../../parts/computing/locate-kit.js';
import { lastSaid, type SaidHere, type SaidOutcome } from '../../parts/drawing/drawn-facts.js';
import type { NodeAt } from '../../parts/drawing/trunk-drawing.js';
import type { ReadKit, ToldThing } from '../../parts/wire.js';

export interface Suppose {
  supposed: readonly Supposed[];
  /** What was said, with what is supposed in its place. */
  said: SaidHere[];
  /** What would be thought then; undefined before it is worked out, and where nothing is supposed. */
  result: LocateResult | undefined;
  isWorking: boolean;
  /** What would be heard of what was complained of most; null: nothing is supposed there any more. */
  set: (at: NodeAt, outcome: SaidOutcome | null) => void;
  tried: FunctionName;
  end: () => void;
}

/** What if: worked out in the page, recorded nowhere. */
export function useSuppose(kit: ReadKit | undefined, told: readonly ToldThing[]): Suppose {
  const [supposed, setSupposed] = useState<readonly Supposed[]>([]);
  const [result, setResult] = useState<{ of: readonly Supposed[]; result?: LocateResult }>();
  const said = useMemo(() => lastSaid(told), [told]);
  const tried = mostTold(said);
  useEffect(() => {
    if (kit === undefined || supposed.length === 0) return;
    const thread = new KitThread(kit, (worked) => {
      setResult({ of: supposed, ...(worked !== undefined && { result: worked }) });
    });
    thread.suppose(supposed);
    return () => thread.end();
  }, [kit, supposed]);
  const isWorked = result?.of === supposed;
  return {
    supposed,
    said: [...said.filter((one) => !supposed.some((other) => isSame(one, other))), ...supposed],
    result: supposed.length === 0 ? undefined : result?.result,
    isWorking: supposed.length > 0 && !isWorked,
    tried,
    set: ({ trunk, node }, outcome) => {
      const point = { trunk, node, function: tried };
      const others = supposed.filter((one) => !isSame(one, point));
      setSupposed(outcome === null ? others : [...others, { ...point, outcome }]);
    },
    end: () => setSupposed([]),
  };
}

function isSame(a: Omit<Supposed, 'outcome'>, b: Omit<Supposed, 'outcome'>): boolean {
  return a.trunk === b.trunk && a.node === b.node && a.function === b.function;
}

function mostTold(said: readonly SaidHere[]): FunctionName {
  const failing = said.filter(({ outcome }) => outcome !== 'works');
  const counts = new Map<FunctionName, number>();
  for (const one of failing) counts.set(one.function, (counts.get(one.function) ?? 0) + 1);
  const [first] = [...counts].sort(([, a], [, b]) => b - a);
  return first?.[0] ?? 'announcement';
}
