import { seededRandom } from '../electrical/seeded-random.js';
import { type Generator, generators } from './generator.js';
import { drawYear, FAMILIES } from './troubles.js';
import {
  estimated,
  type Estimate,
  type Sums,
  WAY_NAMES,
  type WayName,
  workCalls,
  type WorkedCall,
} from './year.js';

type Log = (line: string) => void;

/** Years of the firm with everything as the model says, and of each other kind. */
const YEARS_AS_MODEL = 2;
const YEARS_OTHERWISE = 1;
const [ADVICE, , ...HABITS] = WAY_NAMES;

const plusMinus = ({ mean, standardError }: Estimate) =>
  `${Math.round(mean).toLocaleString('en')} ± ${Math.round(standardError).toLocaleString('en')}`;
const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;

interface Simulated {
  generator: Generator;
  years: number;
  ways: readonly WayName[];
  calls: WorkedCall[];
}

/** Prints what a year costs a firm of 40 sites by Lastheard's advice and by habits, as Markdown. */
export function printYear(log: Log): void {
  const [asModel, ...others] = generators(seededRandom(5));
  if (asModel === undefined) return;
  const first = simulate(asModel);
  printSums(log, first);
  printFamilies(log, first);
  printHead(log);
  printGenerator(log, first);
  for (const generator of others) printGenerator(log, simulate(generator));
}

function simulate(generator: Generator): Simulated {
  const years = generator.isModel ? YEARS_AS_MODEL : YEARS_OTHERWISE;
  const ways = generator.isModel ? WAY_NAMES : [ADVICE, ...HABITS];
  const troubles = Array.from({ length: years }).flatMap((_, y) => drawYear(y + 1, generator));
  return { generator, years, ways, calls: workCalls(troubles, ways) };
}

const COLUMNS: readonly [title: string, name: keyof Sums][] = [
  ['minutes on site', 'onSiteMinutes'],
  ['trips', 'trips'],
  ['second trips for a part', 'forParts'],
  ['second trips, not found in 150 minutes', 'notFound'],
  ['visits spared', 'spared'],
  ['minutes on the telephone', 'officeMinutes'],
  ['room-hours of silence', 'silentRoomHours'],
];

function printSums(log: Log, { calls, years, ways }: Simulated): void {
  log(`A year of 40 sites, ${calls.length} calls in ${years} years, generator = model:`);
  log('');
  log(
    line([
      'calls worked',
      ...COLUMNS.map(([title]) => title),
      'minutes on site more than by advice',
    ]),
  );
  log(`| --- |${' --: |'.repeat(COLUMNS.length + 1)}`);
  for (const way of ways) {
    const cells = COLUMNS.map(([, name]) =>
      plusMinus(estimated(calls, years, ({ by }) => by[way]![name])),
    );
    log(line([way, ...cells, way === ADVICE ? '' : more(calls, years, way)]));
  }
  log('');
}

/** Of the same calls, so that what the year brought takes no part in it. */
function more(calls: readonly WorkedCall[], years: number, way: WayName): string {
  return plusMinus(
    estimated(calls, years, ({ by }) => by[way]!.onSiteMinutes - by[ADVICE]!.onSiteMinutes),
  );
}

function printFamilies(log: Log, { calls, ways }: Simulated): void {
  log('Minutes on site a call, by what was the matter; in brackets trips a call:');
  log('');
  log(line(['what was the matter', 'calls', ...ways]));
  log(`| --- |${' --: |'.repeat(ways.length + 1)}`);
  for (const family of FAMILIES) {
    const own = calls.filter(({ trouble }) => trouble.family === family);
    const mean = (way: WayName, name: keyof Sums) =>
      own.reduce((sum, { by }) => sum + by[way]![name], 0) / own.length;
    const cells = ways.map((way) =>
      own.length === 0
        ? ''
        : `${Math.round(mean(way, 'onSiteMinutes'))} (${mean(way, 'trips').toFixed(1)})`,
    );
    log(line([family, String(own.length), ...cells]));
  }
  log('');
}

const WAYS_COMPARED = [ADVICE, ...HABITS];

function printHead(log: Log): void {
  log('Minutes on site a year, then trips, then room-hours of silence:');
  log('');
  log(line(['how the year is made', 'generator = model', 'calls', ...WAYS_COMPARED]));
  log(`| --- | --- |${' --: |'.repeat(WAYS_COMPARED.length + 1)}`);
}

function printGenerator(log: Log, { generator, calls, years }: Simulated): void {
  const cells = WAYS_COMPARED.map((way) =>
    (['onSiteMinutes', 'trips', 'silentRoomHours'] as const)
      .map((name) => plusMinus(estimated(calls, years, ({ by }) => by[way]![name])))
      .join('; '),
  );
  const isModel = generator.isModel ? 'yes' : 'no';
  log(line([generator.name, isModel, String(Math.round(calls.length / years)), ...cells]));
}
