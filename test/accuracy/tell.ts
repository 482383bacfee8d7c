import type { Random, Room, Site } from './site.js';
import type { Condition, FunctionName } from './true-conditions.js';

export type Outcome = 'works' | 'weak' | 'fails';
const OUTCOMES: readonly Outcome[] = ['works', 'weak', 'fails'];

/** One thing that somebody told, as the wire form has it. */
export interface Told {
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: Outcome;
  informant: { id?: string; kind: 'office' | 'technician' };
}

// P(outcome | condition), columns works, weak, fails: fault model, section 4.
const CHANCES = {
  office: { good: [0.94, 0.03, 0.03], weak: [0.35, 0.45, 0.2], dead: [0.015, 0.005, 0.98] },
  technician: { good: [0.985, 0.01, 0.005], weak: [0.1, 0.85, 0.05], dead: [0.003, 0.002, 0.995] },
};
export const CHANCE_OF_CONFUSION = 0.02;

/** Somebody who can be asked. */
export interface Person {
  kind: 'office' | 'technician';
  id?: string;
  /** Says anything, whatever is true. */
  confused?: boolean;
}

export function drawOutcome({ kind, confused }: Person, condition: Condition, random: Random) {
  const chances = confused ? [1 / 3, 1 / 3, 1 / 3] : CHANCES[kind][condition];
  let left = random();
  for (const outcome of OUTCOMES) {
    left -= chances[OUTCOMES.indexOf(outcome)]!;
    if (left < 0) return outcome;
  }
  return 'fails';
}

export function told(
  site: Site,
  { trunk, node }: Room,
  name: FunctionName,
  outcome: Outcome,
  { kind, id }: Pick<Person, 'kind' | 'id'>,
): Told {
  const { id: trunkId, nodes } = site.trunks[trunk]!;
  const informant = id === undefined ? { kind } : { id, kind };
  return { trunk: trunkId, node: nodes[node]!.id, function: name, outcome, informant };
}
