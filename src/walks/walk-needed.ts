import type { LocateRequest } from '../locator/index.js';
import type { ProbableWorld, WorldAnswers, WorldFault } from '../locator/worlds/index.js';
import type { WorldReader } from './walk-reader.js';

type Point = Pick<
  NonNullable<LocateRequest['observations']>[number],
  'trunk' | 'node' | 'function'
>;

/** What was said not to work, with the trunk whole. */
export function reportedPoints({
  observations = [],
}: Pick<LocateRequest, 'observations'>): Point[] {
  return observations.filter(
    ({ outcome, disconnectedBelow }) => outcome !== 'works' && disconnectedBelow === undefined,
  );
}

/**
 * Worlds with only those faults that must be mended until every point works: a fault is needed if, beside some of the
 * others, it changes what is true of a point (so an open is, and the short that it hides). A world that leaves all
 * points well has no faults then.
 */
export function neededWorlds(
  worlds: readonly Pick<ProbableWorld, 'faults' | 'probability'>[],
  read: WorldReader,
  points: readonly Point[],
): Pick<ProbableWorld, 'faults' | 'probability'>[] {
  const distinct = [
    ...new Map(points.map((point) => [JSON.stringify(pointOf(point)), point])).values(),
  ];
  const shown = new WeakMap<WorldAnswers, string>();
  const shownBy = (faults: readonly WorldFault[]) => {
    const answers = read({ faults });
    const known =
      shown.get(answers) ??
      distinct.map((one) => answers.condition(one.trunk, one.node, one.function)).join();
    shown.set(answers, known);
    return known;
  };
  return worlds.map(({ faults, probability }) => {
    const isNeeded = (fault: WorldFault) =>
      everySubset(faults.filter((one) => one !== fault)).some(
        (others) =>
          shownBy(others) !==
          shownBy(faults.filter((one) => one === fault || others.includes(one))),
      );
    return { faults: faults.filter(isNeeded), probability };
  });
}

function pointOf({ trunk, node, function: name }: Point): readonly string[] {
  return [trunk, node, name];
}

function everySubset<T>(list: readonly T[]): T[][] {
  return list.reduce<T[][]>((sets, one) => [...sets, ...sets.map((set) => [...set, one])], [[]]);
}
