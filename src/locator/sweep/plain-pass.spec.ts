import { describe, expect, it } from '@jest/globals';
import { SUPPLY } from '../../plan/cores.js';
import { DEFAULT_RATES } from '../../plan/rates.js';
import { ComponentLabelsMaker } from '../readings/component-labels.js';
import { goesWith } from '../readings/label-shape.js';
import { LabelSpace } from '../readings/label-space.js';
import { componentMatrix } from './component-matrix.js';
import { passUp } from './cross-span.js';
import { passDown, passMatrix } from './descend-span.js';
import { allContexts } from './live-contexts.js';
import { passUpPlain } from './plain-pass.js';
import { spanChances } from './span-chances.js';
import { systemOf } from './system.js';

const { plan, effects: EFFECTS, states, feedClasses } = systemOf();
const STATE_COUNT = states.count;
const FEED_CLASSES = feedClasses.count;
const SPEECH = 2;

const chances = spanChances(plan.spanModes, DEFAULT_RATES.junction, 1, 40, EFFECTS);

/** A component on a stretch that was tried, on a trunk of which two loops were read. */
function labelled(isInRow: boolean) {
  const cores = [SPEECH, SUPPLY].map((core) => ({ core, isInRow }));
  const maker = new ComponentLabelsMaker(EFFECTS, 1, cores);
  const space = new LabelSpace();
  space.number([0, 0, 0]);
  const group = isInRow ? null : 0;
  const loops = [
    { core: SPEECH, group, excess: 5 },
    { core: SUPPLY, group, excess: 0.3 },
  ];
  const component = { asked: [SUPPLY], loops };
  // Until nothing is added: then any label can be below it.
  while (true) {
    const before = space.labels.length;
    const made = maker.of(space, chances.effects, component);
    if (space.labels.length === before) return { made, labels: before };
  }
}

const KINDS = {
  'without labels': { made: null, labels: 1 },
  'with labels': labelled(false),
  'with labels of a trunk in a row': labelled(true),
};

/** Contexts that are gone down. */
const WHICH: [string, (context: number) => boolean][] = [
  ['all', () => true],
  ['every other one', (c) => c % 2 === 0],
  ['eight in a row and some behind a gap', (c) => c < 8 || c > 9],
];

const CASES = Object.entries(KINDS).flatMap(([kind, { made, labels }]) =>
  [1, 2, 3, 4, 5, 8, 11, 16].map((contexts) => ({ kind, made, labels, contexts })),
);

describe.each(CASES)('$contexts contexts at once, $kind', ({ made, labels, contexts }) => {
  const columns = labels * contexts;
  const slot = { at: 2, columns, labels, contexts, scaleAt: 0 };
  const [before, entries] = [2 * STATE_COUNT, columns * STATE_COUNT];

  /** Whether what a label says is seen is what the state of the entry sees. */
  function canBe(entry: number): boolean {
    if (!made) return true;
    const state = Math.floor(entry / columns);
    const label = Math.floor((entry % columns) / contexts);
    return goesWith(made.shape, label, states.view[state]!);
  }

  /** Entries that look like no other's, between 0 and 1; 0 where nothing can be. */
  function message(from: number, seed: number): Float64Array {
    return Float64Array.from({ length: from + entries }, (_, i) =>
      i < from || canBe(i - from) ? ((i + seed) * 0.618034) % 1 : 0,
    );
  }

  function expectNear(found: Float64Array, wanted: Float64Array, from: number): void {
    let seen = 0;
    found.forEach((value, i) => {
      if (i >= from && !canBe(i - from)) return;
      expect(value).toBeCloseTo(wanted[i]!, 11);
      seen++;
    });
    expect(seen).toBeGreaterThan(contexts * STATE_COUNT - 1);
  }

  const below = message(before, 1);
  /** What is faulty below already, and nothing above yet. */
  const tables = () => [message(before, 3), new Float64Array(before + entries)] as const;
  /** Scales that are all the same, written out: what sends the general way through the same numbers. */
  const ones = new Float64Array(FEED_CLASSES * FEED_CLASSES * contexts).fill(1);

  it('go up as they do one effect after the other', () => {
    const [faulty, above] = tables();
    const [faultyWanted, aboveWanted] = tables();
    const matrix = componentMatrix(EFFECTS, states.view, slot, chances, made);
    const table = { base: before, columns: matrix.columns };
    passUpPlain(matrix.pairs, chances.ok, matrix.weights, table, below, faulty, above);
    passUp(EFFECTS, chances, made?.moves, ones, slot, below, faultyWanted, aboveWanted);
    expectNear(faulty, faultyWanted, before);
    expectNear(above, aboveWanted, before);
    expect(Math.max(...faulty)).toBeGreaterThan(0);
  });

  it.each(WHICH)('come down as they do so, %s', (_name, isLive) => {
    const visited = (count: number) =>
      allContexts(count)(count).filter((c) => isLive(c % contexts));
    const live = { columns: visited(columns), contexts: visited(contexts) };
    const down = message(0, 7);
    const [found, wanted] = [new Float64Array(entries), new Float64Array(entries)];
    const [masses, massesWanted] = [new Float64Array(30), new Float64Array(30)];
    const go = (to: Float64Array | null, bottom: Float64Array) =>
      passMatrix({ space: states }, slot, live, EFFECTS, chances, made, down, bottom, below, to, 3);
    go(masses, found);
    passDown(EFFECTS, slot, live, chances, made?.moves, ones, down, wanted, below, massesWanted, 3);
    expectNear(found, wanted, 0);
    const alone = new Float64Array(entries);
    go(null, alone);
    expect(alone).toEqual(found);
    masses.forEach((mass, m) => expect(mass).toBeCloseTo(massesWanted[m]!, 10));
    expect(Math.min(...masses.subarray(3, 3 + EFFECTS.count + 1))).toBeGreaterThan(0);
  });
});
