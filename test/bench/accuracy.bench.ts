import { HABITS } from '../accuracy/habits.js';
import { reliability } from '../accuracy/reliability.js';
import { AS_MODEL, COMPLAINED, OTHER_ROWS } from '../accuracy/rows.js';
import { type Outcome, type Row, runRow } from '../accuracy/run-row.js';
import { type Hits, type Mean, meanOf } from '../accuracy/score.js';
import { seededRandom } from '../electrical/seeded-random.js';

type Log = (line: string) => void;
type HabitName = keyof typeof HABITS;

const HABIT_TITLES: Readonly<Record<HabitName, string>> = {
  nearestSilentRoom: 'nearest silent room',
  topMostAllSilentSpan: 'top-most all-silent span',
  likeliestByRates: 'likeliest by rates',
};
const HABIT_NAMES = Object.keys(HABIT_TITLES) as HabitName[];

const percent = (part: number, digits = 0) => (100 * part).toFixed(digits);
const plusMinus = ({ mean, standardError }: Mean, digits: number) =>
  `${mean.toFixed(digits)} ± ${standardError.toFixed(digits)}`;

function share(outcomes: readonly Outcome[], holds: (outcome: Outcome) => boolean): string {
  const { mean, standardError } = meanOf(outcomes.map((outcome) => (holds(outcome) ? 1 : 0)));
  return `${percent(mean)} ± ${percent(standardError)}`;
}

/** How much the true generator's own posterior says better, where it can be computed. */
function lost(outcomes: readonly Outcome[]): string {
  const more = outcomes.flatMap(({ bits, trueBits }) =>
    trueBits === undefined ? [] : [bits - trueBits],
  );
  return more.length < outcomes.length ? 'not computed' : plusMinus(meanOf(more), 2);
}

const COLUMNS: readonly [title: string, cell: (row: Row, outcomes: Outcome[]) => string][] = [
  ['generator = model', ({ sameAsModel }) => (sameAsModel ? 'yes' : 'no')],
  ['seed', ({ seed }) => String(seed)],
  ['cases', (_, outcomes) => String(outcomes.length)],
  ['false alarms', (_, outcomes) => share(outcomes, ({ falseAlarm }) => falseAlarm)],
  [
    'first place stated',
    (_, outcomes) => percent(meanOf(outcomes.map(({ stated }) => stated[0]?.stated ?? 0)).mean),
  ],
  ...hitColumns('locator', ({ locator }) => locator),
  ['bits a case', (_, outcomes) => plusMinus(meanOf(outcomes.map(({ bits }) => bits)), 2)],
  [
    'as expected of itself',
    (_, outcomes) => meanOf(outcomes.map(({ expectedBits }) => expectedBits)).mean.toFixed(2),
  ],
  [
    'more than the true generator',
    ({ sameAsModel }, outcomes) => (sameAsModel ? 'the same' : lost(outcomes)),
  ],
  ...HABIT_NAMES.flatMap((name) => hitColumns(HABIT_TITLES[name], ({ habits }) => habits[name])),
];

function hitColumns(who: string, of: (outcome: Outcome) => Hits): (typeof COLUMNS)[number][] {
  return [
    [`${who}: first`, (_, outcomes) => share(outcomes, (outcome) => of(outcome).first)],
    [`${who}: first three`, (_, outcomes) => share(outcomes, (outcome) => of(outcome).firstThree)],
  ];
}

const markdown = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;

function logRow(log: Log, row: Row, outcomes: Outcome[]): void {
  log(markdown([row.name, ...COLUMNS.map(([, cell]) => cell(row, outcomes))]));
}

/**
 * Prints how far the log scores of several seeds together are from what they should be where the generator is the model,
 * and whether the reliability curve is inside its band.
 */
export function benchCalibration(log: Log, seeds: readonly number[], cases: number): Outcome[] {
  const outcomes = seeds.flatMap((seed) => runRow({ ...AS_MODEL, seed, cases }));
  log(
    `accuracy: generator = model, seeds ${seeds.join(', ')}, ${outcomes.length} cases: realised less expected log score`,
  );
  const gap = (of: string, values: number[]) =>
    log(`  ${of.padEnd(36)} ${plusMinus(meanOf(values), 3)} bits a case`);
  gap(
    'places in question',
    outcomes.map(({ bits, expectedBits }) => bits - expectedBits),
  );
  gap(
    'first three places',
    outcomes.map(({ gapOfFirstThree }) => gapOfFirstThree),
  );
  gap(
    'all places of the site',
    outcomes.map(({ gapOfAllPlaces }) => gapOfAllPlaces),
  );
  gap(
    'modes of the components in question',
    outcomes.map(({ gapOfModes }) => gapOfModes ?? NaN),
  );
  const forecasts = outcomes.flatMap(({ stated }) => stated);
  for (const coverage of [0.9, 0.99]) {
    const found = reliability(forecasts, coverage, seededRandom(99));
    log(
      `  reliability curve of ${forecasts.length} stated chances: ${percent(found.inside, 1)} % inside its ` +
        `${percent(coverage)} % band; honest forecasters ${percent(found.honestMean, 1)} %, ` +
        `19 of 20 of them at least ${percent(found.honestLeast, 1)} %`,
    );
  }
  return outcomes;
}

/** Prints how often the locator and three habits are right, and how its log score compares, as a Markdown table. */
export function benchAccuracy(log: Log): void {
  const asModel = benchCalibration(log, [AS_MODEL.seed], AS_MODEL.cases);
  log('');
  log(markdown(['cases', ...COLUMNS.map(([title]) => title)]));
  log(`| --- | --- |${' --: |'.repeat(COLUMNS.length - 1)}`);
  logRow(log, AS_MODEL, asModel);
  logRow(log, COMPLAINED, runRow(COMPLAINED));
  const others = OTHER_ROWS.map((row) => {
    const outcomes = runRow(row);
    logRow(log, row, outcomes);
    return outcomes;
  });
  log('');
  logHidden(log, others.flat());
  logTrueGap(log, others.flat());
}

function logHidden(log: Log, outcomes: readonly Outcome[]): void {
  const stated = outcomes.flatMap(({ hiddenStated }) => hiddenStated ?? []);
  const found = meanOf(stated.map((chance) => 100 * chance));
  log(`hidden shorts, ${stated.length} cases: their span is given ${plusMinus(found, 1)} %`);
}

/** The scores to compare with must themselves be what they should be. */
function logTrueGap(log: Log, outcomes: readonly Outcome[]): void {
  const gaps = outcomes.flatMap(({ trueBits, trueExpectedBits }) =>
    trueBits === undefined || trueExpectedBits === undefined ? [] : [trueBits - trueExpectedBits],
  );
  log(
    `true generators’ posteriors, ${gaps.length} cases: realised less expected log score ${plusMinus(meanOf(gaps), 3)} bits a case`,
  );
}
