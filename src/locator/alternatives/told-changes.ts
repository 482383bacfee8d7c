import type { Outcome } from '../../plan/error-rates.js';
import type { FunctionName } from '../../plan/functions.js';
import type { LocateRequest } from '../request/locate-request.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import type { Unbranched } from './unbranched.js';

/** What was told of a node: of each function, every outcome; and whether any is trouble. */
export interface Told {
  readonly outcomes: ReadonlyMap<FunctionName, ReadonlySet<Outcome>>;
  readonly trouble: boolean;
}

/** By node of one trunk; null where nothing was told. Silence tells nothing here, even where it speaks. */
export function toldOf(request: LocateRequest, tree: TrunkTree): (Told | null)[] {
  const words = new Map<string, Map<FunctionName, Set<Outcome>>>();
  for (const { trunk, node, function: name, outcome } of request.observations ?? []) {
    if (trunk !== tree.id) continue;
    const said = words.get(node) ?? new Map<FunctionName, Set<Outcome>>();
    words.set(node, said.set(name, (said.get(name) ?? new Set<Outcome>()).add(outcome)));
  }
  return tree.nodeIds.map((id) => {
    const outcomes = words.get(id);
    if (!outcomes) return null;
    const trouble = [...outcomes.values()].some((one) => one.has('fails') || one.has('weak'));
    return { outcomes, trouble };
  });
}

/** Whether the functions told of both tell two nodes apart; where there are none, whether one alone has trouble. */
export function differ(a: Told, b: Told): boolean {
  let common = false;
  for (const [name, outcomes] of a.outcomes) {
    const others = b.outcomes.get(name);
    if (!others) continue;
    common = true;
    if (outcomes.size !== others.size || [...outcomes].some((one) => !others.has(one))) return true;
  }
  return !common && a.trouble !== b.trouble;
}

/** Where what was told changes along a stretch: between two nodes told of, with nothing told of those between them. */
export interface Border {
  /** Places of the two in the stretch. */
  readonly before: number;
  readonly after: number;
  /** Whether there is trouble on one side alone. */
  readonly ofTrouble: boolean;
}

export function bordersOf(stretch: Unbranched, told: readonly (Told | null)[]): Border[] {
  const borders: Border[] = [];
  let before = -1;
  stretch.forEach((node, place) => {
    const here = told[node];
    if (!here) return;
    const last = told[stretch[before] ?? -1];
    if (last && differ(last, here))
      borders.push({ before, after: place, ofTrouble: last.trouble !== here.trouble });
    before = place;
  });
  return borders;
}
