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

/** The chance of each cause by name: a short on the trunk is told apart by where it may be; what is not listed has no name. */
export function causesByName({ causes }: Trouble): Map<string, number> {
  const chances = new Map<string, number>();
  for (const { cause, probability, within = [] } of causes) {
    if (cause.kind === 'rest') continue;
    const sum = within.reduce((all, one) => all + one.probability, 0);
    if (sum === 0) chances.set(JSON.stringify(cause), probability);
    for (const one of within)
      chances.set(JSON.stringify([cause, one.place]), (probability * one.probability) / sum);
  }
  return chances;
}

/** What distributions, each with its chance, tell about the one before them, in bits: the mean of their distance to it. */
export function meanDistance(
  before: ReadonlyMap<string, number>,
  after: readonly { chance: number; causes: ReadonlyMap<string, number> }[],
): number {
  const term = (p: number, q: number) => (p > 0 && q > 0 ? p * Math.log2(p / q) : 0);
  return after.reduce((bits, { chance, causes }) => {
    let [own, listed, listedBefore] = [0, 0, 0];
    for (const [name, q] of before) {
      const p = causes.get(name) ?? 0;
      own += term(p, q);
      listed += p;
      listedBefore += q;
    }
    // Whatever was not listed before is one.
    own += term(Math.max(0, 1 - listed), Math.max(0, 1 - listedBefore));
    return bits + chance * Math.max(0, own);
  }, 0);
}

/** In bits; what is not listed is one more. */
export function entropy(causes: ReadonlyMap<string, number>): number {
  let bits = 0;
  let rest = 1;
  for (const chance of causes.values()) {
    if (chance > 0) bits -= chance * Math.log2(chance);
    rest -= chance;
  }
  return rest > 1e-12 ? bits - rest * Math.log2(rest) : bits;
}
