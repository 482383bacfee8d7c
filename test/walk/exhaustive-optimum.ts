import type { WalkProblem } from '#app/walk/index.js';

interface Belief {
  faults: readonly number[];
  chance: number;
}

interface Known {
  spot: number;
  /** Sums to 1; no empty sets of faults. */
  beliefs: Belief[];
  /** Checks made since the last mending. */
  used: number;
  /** Places opened that looked sound. */
  opened: number;
}

type Ending = { probability: number; extraMinutes: number; known: Known | null };

/**
 * Slow oracle: the least expected minutes over all policies, by trying every action in every
 * state that any sequence of actions and outcomes leads to. Written apart from the locator's own
 * bookkeeping. States are remembered by spot, checks used and beliefs to ten digits; an action is
 * passed over only if even somebody who knows all faults could not make it the best.
 */
export function exhaustiveOptimum(problem: WalkProblem): number {
  const remembered = new Map<string, number>();

  function least(known: Known): number {
    const key = `${known.spot}|${known.used}|${known.opened}|${known.beliefs
      .map(({ faults, chance }) => `${faults.join()}:${chance.toFixed(10)}`)
      .join(';')}`;
    const before = remembered.get(key);
    if (before !== undefined) return before;
    const actions = possible(problem, known).map((action) => {
      const bound = action.endings.reduce((sum, { probability, extraMinutes, known: next }) => {
        return sum + probability * (extraMinutes + (next ? clairvoyant(problem, next) : 0));
      }, action.minutes);
      return { ...action, bound };
    });
    actions.sort((a, b) => a.bound - b.bound);
    let best = Infinity;
    for (const { minutes, endings, bound } of actions) {
      if (bound >= best) break;
      let total = minutes;
      for (const { probability, extraMinutes, known: next } of endings) {
        total += probability * (extraMinutes + (next ? least(next) : 0));
      }
      best = Math.min(best, total);
    }
    remembered.set(key, best);
    return best;
  }

  const beliefs = problem.worlds
    .filter(({ probability }) => probability > 0)
    .map(({ faults, probability }) => ({ faults, chance: probability }));
  return least({ spot: problem.startSpot, beliefs, used: 0, opened: 0 });
}

function possible(problem: WalkProblem, known: Known): { minutes: number; endings: Ending[] }[] {
  const walk = (to: number) => problem.walkMinutes[known.spot]![to]!;
  const opens = problem.places.flatMap((place, index) => {
    if (!known.beliefs.some(({ faults }) => faults.includes(index))) return [];
    const here = { ...known, spot: place.spot };
    const isAgain = (known.opened & (1 << index)) !== 0;
    const missed = place.missedChance?.(0) ?? 0;
    const wrong = place.falseChance ?? 0;
    // Made anew, it is mended whether it was at fault or not.
    const mended = known.beliefs.map(({ faults, chance }) => ({
      faults: faults.filter((other) => other !== index),
      chance: chance * (isAgain ? 1 : faults.includes(index) ? 1 - missed : wrong),
    }));
    const done = sum(mended.filter(({ faults }) => faults.length === 0));
    const mendMinutes = isAgain ? 0 : place.mendMinutes;
    const endings: Ending[] = [
      { probability: done, extraMinutes: mendMinutes, known: null },
      ...ending(
        { ...here, used: 0 },
        mended.filter(({ faults }) => faults.length > 0),
        mendMinutes,
      ),
    ];
    if (isAgain)
      return [{ minutes: walk(place.spot) + place.openMinutes + place.mendMinutes, endings }];
    const sound = known.beliefs.map(({ faults, chance }) => ({
      faults,
      chance: chance * (faults.includes(index) ? missed : 1 - wrong),
    }));
    const after = { ...here, opened: known.opened | (1 << index) };
    if (place.check === undefined) endings.push(...ending(after, sound, 0));
    else endings.push(...checked(problem, after, sound, place.check));
    return [{ minutes: walk(place.spot) + place.openMinutes, endings }];
  });
  const checks = problem.checks.flatMap((check, index) => {
    if (known.used & (1 << index)) return [];
    const endings = checked(problem, { ...known, spot: check.spot }, known.beliefs, index);
    // An outcome that says nothing about the faults only costs time.
    const says = endings.some(({ known: next }) =>
      next!.beliefs.some(({ faults, chance }) => {
        const before = known.beliefs.find((belief) => belief.faults === faults);
        return Math.abs(before!.chance - chance) > 1e-12;
      }),
    );
    const saysNothing =
      !says && endings.every(({ known: n }) => n!.beliefs.length === known.beliefs.length);
    return saysNothing ? [] : [{ minutes: walk(check.spot) + check.minutes, endings }];
  });
  return [...opens, ...checks];
}

function checked(problem: WalkProblem, here: Known, beliefs: Belief[], index: number): Ending[] {
  if (here.used & (1 << index)) return ending(here, beliefs, 0);
  const check = problem.checks[index]!;
  const used = here.used | (1 << index);
  return check.outcomes.flatMap((_, outcome) =>
    ending(
      { ...here, used },
      beliefs.map(({ faults, chance }) => ({
        faults,
        chance: chance * check.chances(faults, [])[outcome]!,
      })),
      0,
    ),
  );
}

function ending(here: Known, beliefs: Belief[], extraMinutes: number): Ending[] {
  const probability = sum(beliefs);
  if (probability === 0) return [];
  const merged = new Map<string, Belief>();
  for (const { faults, chance } of beliefs) {
    if (chance === 0) continue;
    const key = faults.join();
    const before = merged.get(key);
    merged.set(key, {
      faults: before?.faults ?? faults,
      chance: (before?.chance ?? 0) + chance / probability,
    });
  }
  return [{ probability, extraMinutes, known: { ...here, beliefs: [...merged.values()] } }];
}

/** Expected minutes of one who knows the faults: no policy does better. At most two faults. */
function clairvoyant(problem: WalkProblem, { spot, beliefs }: Known): number {
  const go = (from: number, place: number) => {
    const { spot: to, openMinutes, mendMinutes } = problem.places[place]!;
    return problem.walkMinutes[from]![to]! + openMinutes + mendMinutes;
  };
  return beliefs.reduce((total, { faults, chance }) => {
    const [a, b] = faults;
    if (a === undefined) return total;
    if (b === undefined) return total + chance * go(spot, a);
    const aFirst = go(spot, a) + go(problem.places[a]!.spot, b);
    const bFirst = go(spot, b) + go(problem.places[b]!.spot, a);
    return total + chance * Math.min(aFirst, bFirst);
  }, 0);
}

const sum = (beliefs: Belief[]) => beliefs.reduce((total, { chance }) => total + chance, 0);
