import { describe, expect, it } from '@jest/globals';
import { DEFAULT_RATES } from '../../plan/rates.js';
import { passUp } from './cross-span.js';
import { passDown } from './descend-span.js';
import { allContexts } from './live-contexts.js';
import { passDownOnly, passDownPlain, passUpPlain } from './plain-pass.js';
import { spanChances } from './span-chances.js';
import { systemOf } from './system.js';

const { plan, effects: EFFECTS, states, feedClasses } = systemOf();
const STATE_COUNT = states.count;
const FEED_CLASSES = feedClasses.count;

/** Entries that look like no other's: of a message, all between 0 and 1. */
function message(entries: number, seed: number): Float64Array {
  return Float64Array.from({ length: entries }, (_, i) => ((i + seed) * 0.618034) % 1);
}

function expectNear(found: Float64Array, wanted: Float64Array): void {
  found.forEach((value, i) => expect(value).toBeCloseTo(wanted[i]!, 13));
}

const chances = spanChances(plan.spanModes, DEFAULT_RATES.junction, 1, 40, EFFECTS);

/** Columns that are gone down. */
const WHICH: [string, (column: number) => boolean][] = [
  ['all', () => true],
  ['every other one', (c) => c % 2 === 0],
  ['eight in a row and some behind a gap', (c) => c < 8 || c > 9],
];

describe.each([1, 2, 3, 4, 5, 8, 11, 16])('%d columns at once', (columns) => {
  const slot = { at: 2, columns, labels: 1, contexts: columns, scaleAt: 0 };
  const [before, entries] = [2 * STATE_COUNT, columns * STATE_COUNT];
  const below = message(before + entries, 1);
  /** What is faulty below already, and nothing above yet. */
  const tables = () => [message(before + entries, 3), new Float64Array(before + entries)] as const;
  /** Scales that are all the same, written out: what sends the general way through the same numbers. */
  const ones = new Float64Array(FEED_CLASSES * FEED_CLASSES * columns).fill(1);

  it('go up as they do one effect after the other', () => {
    const [faulty, above] = tables();
    const [faultyWanted, aboveWanted] = tables();
    passUpPlain(EFFECTS.pairs, chances, slot, below, faulty, above);
    passUp(EFFECTS, chances, undefined, ones, slot, below, faultyWanted, aboveWanted);
    expectNear(faulty, faultyWanted);
    expectNear(above, aboveWanted);
    expect(Math.max(...faulty)).toBeGreaterThan(0);
  });

  it.each(WHICH)('come down as they do so, %s', (_name, isLive) => {
    const live = allContexts(columns)(columns).filter(isLive);
    const down = message(entries, 7);
    const [found, wanted] = [new Float64Array(entries), new Float64Array(entries)];
    const [masses, massesWanted] = [new Float64Array(30), new Float64Array(30)];
    passDownPlain(EFFECTS, chances, slot, live, down, found, below, masses, 3);
    const columnsLive = { columns: live, contexts: live };
    passDown(
      EFFECTS,
      slot,
      columnsLive,
      chances,
      undefined,
      ones,
      down,
      wanted,
      below,
      massesWanted,
      3,
    );
    expectNear(found, wanted);
    expectNear(masses, massesWanted);
    const alone = new Float64Array(entries);
    passDownOnly(EFFECTS, chances, slot, live, down, alone);
    expect(alone).toEqual(found);
    expect(Math.min(...masses.subarray(3, 3 + EFFECTS.count + 1))).toBeGreaterThan(0);
  });
});
