/** A part of the evidence this improbable, such as a head-end group, changes no digit of what is summed over all of it. */
export const NEGLIGIBLE = 1e-18;

/** The contexts, out of so many, that the sweep down has to visit. */
export type LiveContexts = (contexts: number) => Int32Array;

/**
 * Contexts are counted within head-end groups (context % groups): after forty rooms, most of the head-end's modes are
 * out of the question, and the sweep down need not carry them.
 *
 * @param groups the posterior of each head-end group
 */
export function liveContexts(groups: Float64Array): LiveContexts {
  const known = new Map<number, Int32Array>();
  return (contexts) => {
    const found = known.get(contexts);
    if (found) return found;
    const all = Int32Array.from({ length: contexts }, (_, context) => context);
    const live = all.filter((context) => (groups[context % groups.length] ?? 0) > NEGLIGIBLE);
    known.set(contexts, live);
    return live;
  };
}

export function allContexts(groups: number): LiveContexts {
  return liveContexts(new Float64Array(groups).fill(1));
}
