import type { CoreSet } from '../../plan/cores.js';
import { MAX_LABEL_PAIRS } from '../request/limits.js';
import { coresSeen, joinLabels, type Label, type LabelledLoop } from './label.js';
import { LabelSpace, tooManyReadings } from './label-space.js';

/** Products of the labels of two branches: so much of left and right makes out. */
export interface Pairs {
  readonly left: Uint16Array;
  readonly right: Uint16Array;
  readonly out: Uint16Array;
  readonly weight: Float64Array;
}

/** How one more branch joins those before it. */
export interface LabelJoin {
  /** Labels of the product. */
  readonly labels: number;
  /** By the cores seen in the left branch * 16 + those in the right, of the cores whose loops were read. */
  readonly pairs: ReadonlyMap<number, Pairs>;
  readonly loopCores: CoreSet;
}

/**
 * Joins the label spaces of the spans below a node, one after another.
 * @throws InvalidLocateRequest when that makes more products than the stated limit
 */
export function joinSpaces(
  stretches: number,
  loops: readonly LabelledLoop[],
  spaces: readonly LabelSpace[],
): { joins: LabelJoin[]; joined: LabelSpace } {
  const joins: LabelJoin[] = [];
  let joined = spaces[0] ?? emptySpace(stretches + loops.length);
  const loopCores = loops.reduce((set, { core }) => set | core, 0);
  for (const space of spaces.slice(1)) {
    const out = new LabelSpace();
    const pairs = pairUp(stretches, loops, joined, space, out);
    joins.push({ labels: out.labels.length, pairs, loopCores });
    joined = out;
  }
  return { joins, joined };
}

/** Nothing below: no stretch is broken there, no short is seen. */
function emptySpace(dimensions: number): LabelSpace {
  const space = new LabelSpace();
  space.number(new Array<number>(dimensions).fill(0));
  return space;
}

function pairUp(
  stretches: number,
  loops: readonly LabelledLoop[],
  left: LabelSpace,
  right: LabelSpace,
  out: LabelSpace,
): Map<number, Pairs> {
  if (left.labels.length * right.labels.length > MAX_LABEL_PAIRS) throw tooManyReadings();
  const seen = (label: Label) => coresSeen(stretches, label, loops).seen;
  const lists = new Map<number, [number, number, number, number][]>();
  left.labels.forEach((a, l) =>
    right.labels.forEach((b, r) => {
      const joined = joinLabels(stretches, a, b);
      if (!joined) return;
      const key = seen(a) * 16 + seen(b);
      const list = lists.get(key) ?? [];
      lists.set(key, list);
      list.push([l, r, out.number(joined.label), joined.weight]);
    }),
  );
  return new Map(
    [...lists].map(([key, list]) => [
      key,
      {
        left: Uint16Array.from(list, ([l]) => l),
        right: Uint16Array.from(list, ([, r]) => r),
        out: Uint16Array.from(list, ([, , o]) => o),
        weight: Float64Array.from(list, ([, , , weight]) => weight),
      },
    ]),
  );
}
