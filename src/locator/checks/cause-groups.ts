import { log2 } from '../../elementary/ln.js';
import type { Cause, Trouble } from '../causes/trouble-answer.js';

/** Troubles that have one cause, as far as can be told, are weighed once; so many of them at most. */
const MOST_GROUPS = 20;
/** Causes whose chances differ by less are alike. */
const ALIKE = 1e-3;

/** A station's own modes are one, and so is that nothing is wrong: what makes two troubles one does not depend on them. */
function keyOf({ cause }: { cause: Cause }): string {
  if (cause.kind === 'station' || cause.kind === 'nothing') return 'own';
  return JSON.stringify(cause);
}

function pooled({ causes }: Trouble): Map<string, number> {
  const chances = new Map<string, number>();
  for (const one of causes)
    chances.set(keyOf(one), (chances.get(keyOf(one)) ?? 0) + one.probability);
  return chances;
}

function areAlike(a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): boolean {
  return [...new Set([...a.keys(), ...b.keys()])].every(
    (key) => Math.abs((a.get(key) ?? 0) - (b.get(key) ?? 0)) < ALIKE,
  );
}

/** One trouble of each group, by its place in the list: those of one trunk whose causes agree. */
export function firstOfGroups(troubles: readonly Trouble[]): number[] {
  const groups: { at: number; trunk: string; chances: Map<string, number> }[] = [];
  troubles.forEach((trouble, at) => {
    const chances = pooled(trouble);
    const { trunk } = trouble;
    const known = groups.some((one) => one.trunk === trunk && areAlike(one.chances, chances));
    if (!known && groups.length < MOST_GROUPS) groups.push({ at, trunk, chances });
  });
  return groups.map(({ at }) => at);
}

/** What distributions, each with its chance, tell about the one before them, in bits: the mean of their distance to it. */
export function meanDistance(
  before: Float64Array,
  after: readonly { chance: number; causes: Float64Array }[],
): number {
  return after.reduce((bits, { chance, causes }) => {
    let own = 0;
    before.forEach((q, c) => {
      const p = causes[c] ?? 0;
      if (p > 0 && q > 0) own += p * log2(p / q);
    });
    return bits + chance * Math.max(0, own);
  }, 0);
}

/** In bits. */
export function entropy(causes: Float64Array): number {
  return causes.reduce((bits, chance) => (chance > 0 ? bits - chance * log2(chance) : bits), 0);
}
