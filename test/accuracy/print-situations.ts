import {
  DEFAULT_ERROR_RATES,
  DEFAULT_FALSE_ALARM_RATIO,
  type ErrorRates,
  MIN_FALSE_ALARM_RATIO,
} from '#app/locator/index.js';
import { DEFAULT_PLAN } from '#app/plan/default-plan.js';
import { meanOf } from './score.js';
import { PASSING_SITUATIONS, type PassingOutcome, runPassing } from './passing-situations.js';
import { OTHER_SITUATIONS, SITUATIONS } from './situation-table.js';
import { type Posing, runSituation, type SituationOutcome } from './situations.js';
import { runWrongDrawing } from './wrong-drawings.js';

const FIRST_SEED = 300;
const CASES = 200;

const share = (values: readonly number[]) => {
  const { mean, standardError } = meanOf(values.map((one) => 100 * one));
  return `${mean.toFixed(0)} ± ${standardError.toFixed(0)}`;
};
const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
const bitsOf = (outcomes: readonly Pick<SituationOutcome, 'bits'>[]) => {
  const { mean, standardError } = meanOf(outcomes.map(({ bits }) => bits));
  return `${mean.toFixed(2)} ± ${standardError.toFixed(2)}`;
};

/** Prints, as Markdown, how often the cause named first is the cause, in each situation that people tell. */
export function printSituations(log: (text: string) => void): void {
  log(`Situations, ${CASES} cases each, in percent of cases:`);
  log('');
  const titles = [
    'stated',
    'right',
    'best possible',
    'nearest silent',
    'top-most silent',
    'by rates',
  ];
  log(line(['situation', 'generator = model', ...titles, 'bits a case']));
  log(`| --- | --- |${' --: |'.repeat(titles.length + 1)}`);
  SITUATIONS.forEach((situation, i) => {
    printSituation(log, situation.name, runSituation(situation, FIRST_SEED + i, CASES));
  });
  printOtherSituations(log);
  for (const [kind, name] of [
    ['branch', 'drawn wrong: four rooms in the middle hang from a tee'],
    ['swapped', 'drawn wrong: two rooms swapped, the break between them'],
  ] as const) {
    const outcomes = runWrongDrawing(kind, FIRST_SEED + 20, CASES);
    const stated = share(outcomes.map((one) => one.stated));
    const right = share(outcomes.map((one) => Number(one.isRight)));
    log(line([name, 'no', stated, right, '', '', '', '', '']));
  }
  log('');
  printWrongRates(log);
}

type Printed = PassingOutcome & Partial<Pick<SituationOutcome, 'habits'>>;

function printSituation(
  log: (text: string) => void,
  name: string,
  outcomes: readonly Printed[],
): void {
  const of = (value: (one: Printed) => number | boolean) =>
    share(outcomes.map((one) => Number(value(one))));
  const byHabit = (habit: keyof SituationOutcome['habits']) =>
    outcomes.some(({ habits }) => habits !== undefined)
      ? of(({ habits }) => habits?.[habit] ?? false)
      : '';
  const cells = [
    of((one) => one.stated),
    of((one) => one.isRight),
    outcomes.some(({ isBestRight }) => isBestRight === null)
      ? ''
      : of(({ isBestRight }) => isBestRight ?? false),
    byHabit('nearestSilentRoom'),
    byHabit('topMostAllSilentSpan'),
    byHabit('likeliestByRates'),
  ];
  log(line([name, 'no', ...cells, bitsOf(outcomes)]));
}

/** Two who contradict each other, units that are out, and what comes and goes; of the last, no habit looks at sittings. */
export function printOtherSituations(log: (text: string) => void): void {
  OTHER_SITUATIONS.forEach((situation, i) => {
    printSituation(log, situation.name, runSituation(situation, FIRST_SEED + 30 + i, CASES));
  });
  PASSING_SITUATIONS.forEach((situation, i) => {
    printSituation(log, situation.name, runPassing(situation, FIRST_SEED + 40 + i, CASES));
  });
}

/** The same cases, put to a locator that takes other rates than the model’s. */
function printWrongRates(log: (text: string) => void): void {
  const missing = (times: number): ErrorRates => ({
    office: { ...DEFAULT_ERROR_RATES.office, missed: DEFAULT_PLAN.looks.office.missed * times },
    technician: {
      ...DEFAULT_ERROR_RATES.technician,
      missed: DEFAULT_PLAN.looks.technician.missed * times,
    },
  });
  const posings: [string, Posing][] = [
    ['as the model', {}],
    ['κ 3 times', { falseAlarmRatio: 3 * DEFAULT_FALSE_ALARM_RATIO }],
    ['κ half, the least that is taken', { falseAlarmRatio: MIN_FALSE_ALARM_RATIO }],
    ['looks miss 3 times', { errors: missing(3) }],
    ['looks miss a third', { errors: missing(1 / 3) }],
  ];
  log(
    'All situations together, put to a locator whose κ is 3 times or half the model’s (less is not taken), or whose looks miss 3 times or a third as often:',
  );
  log('');
  log(line(['the locator takes', 'stated', 'right', 'bits a case']));
  log('| --- | --: | --: | --: |');
  for (const [name, posing] of posings) {
    const outcomes = SITUATIONS.flatMap((situation, i) =>
      runSituation(situation, FIRST_SEED + i, CASES / 4, posing),
    );
    const stated = share(outcomes.map((one) => one.stated));
    const right = share(outcomes.map((one) => Number(one.isRight)));
    log(line([name, stated, right, bitsOf(outcomes)]));
  }
  log('');
}
