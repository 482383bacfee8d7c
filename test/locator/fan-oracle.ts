// Fans of any number of branches in logarithms, by no code of the locator: each kind of branch is one table over feed and
// view, and so many like branches are that table joined with itself.
import { headEndRates, priors } from './oracle/mode-chances.js';
import { downThrough, upThrough } from './oracle/span-kinds.js';
import { conditionOf, ERRORS, headEndStops, ORACLE_RATES, OUTCOMES } from './oracle/tables.js';

/** Like branches of one span and one station. */
export interface BranchKind {
  count: number;
  cableMetres: number;
  /** What was said of each of them: function, outcome, and of what kind the informant is. */
  said: readonly (readonly [string, string, string])[];
  /** Whether the station is known to be good: what is left of the evidence then. */
  isGood?: boolean;
}

export interface Fan {
  exposureDays: number;
  /** Metres to a junction box that feeds the branches; without one they begin at the port. */
  teeMetres?: number;
  kinds: readonly BranchKind[];
}

/** Of a head-end without groups. */
const HEAD_END_RATES = headEndRates({ trunks: [] }, ORACLE_RATES.headEnd);
const FEEDS = Array.from({ length: 32 }, (_, feed) => feed);
/** Of supply, speech and select. */
const VIEWS = [0, 1, 4, 5, 8, 9, 12, 13];
const SUPPLY_BIT = 1;

function logSum(logs: readonly number[]): number {
  let most = -Infinity;
  for (const log of logs) if (log > most) most = log;
  if (most === -Infinity) return most;
  let sum = 0;
  for (const log of logs) sum += Math.exp(log - most);
  return most + Math.log(sum);
}

/** log P(view, what is known below | feed), by feed and view. */
type Table = Map<number, number>[];

function gather(entries: Iterable<readonly [number, number]>): Map<number, number> {
  const lists = new Map<number, number[]>();
  for (const [key, log] of entries) {
    const list = lists.get(key);
    if (list) list.push(log);
    else lists.set(key, [log]);
  }
  return new Map([...lists].map(([key, logs]) => [key, logSum(logs)]));
}

function through(table: Table, chances: Record<string, number>): Table {
  const modes = Object.entries(chances);
  return FEEDS.map((feed) =>
    gather(
      modes.flatMap(([mode, chance]) =>
        [...table[downThrough(mode, feed)]!].map(
          ([view, log]) => [upThrough(mode, view), log + Math.log(chance)] as const,
        ),
      ),
    ),
  );
}

function overSpan(table: Table, metres: number, years: number): Table {
  const junction = priors(ORACLE_RATES.junction, 1, years);
  const cable = priors(ORACLE_RATES.cablePerMetre, metres, years);
  return through(through(through(table, junction), cable), junction);
}

/** Made once for each list of what was said, and for all head-ends that stop the same of it. */
const branches = new WeakMap<BranchKind['said'], Map<string, Table>>();

function branch(kind: BranchKind, years: number, headEnd: string): Table {
  const functions = [...new Set(kind.said.map(([name]) => name))];
  const stopped = functions.filter((name) => headEndStops(headEnd, name));
  const key = `${years} ${stopped.join()} ${kind.cableMetres} ${kind.isGood === true}`;
  const known = branches.get(kind.said) ?? new Map<string, Table>();
  branches.set(kind.said, known);
  const table = known.get(key) ?? makeBranch(kind, years, headEnd);
  known.set(key, table);
  return table;
}

function makeBranch(
  { said, cableMetres, isGood }: BranchKind,
  years: number,
  headEnd: string,
): Table {
  const modes = Object.entries(priors(ORACLE_RATES.station, 1, years));
  const known = isGood === true ? modes.filter(([mode]) => mode === 'ok') : modes;
  const counts = new Map<string, number>();
  for (const word of said) counts.set(word.join(), (counts.get(word.join()) ?? 0) + 1);
  const words = [...counts].map(([word, times]) => {
    const [func = '', outcome = '', informant = ''] = word.split(',');
    return [func, outcome, informant, times] as const;
  });
  const station = FEEDS.map((feed) =>
    gather(
      known.map(([mode, chance]) => {
        const logs = words.map(([func, outcome, informant, times]) => {
          const condition = conditionOf(func, headEnd, mode, feed);
          return times * Math.log(ERRORS[informant]![condition]![OUTCOMES.indexOf(outcome)]!);
        });
        const view = mode === 'short-supply' ? SUPPLY_BIT : 0;
        return [view, logs.reduce((a, b) => a + b, Math.log(chance))] as const;
      }),
    ),
  );
  return overSpan(station, cableMetres, years);
}

function join(a: Table, b: Table): Table {
  return FEEDS.map((feed) =>
    gather(
      [...a[feed]!].flatMap(([left, p]) =>
        [...b[feed]!].map(([right, q]) => [left | right, p + q] as const),
      ),
    ),
  );
}

const NOTHING: Table = FEEDS.map(() => new Map([[0, 0]]));

/** By table and count: the same fan is asked for with one branch less of each kind. */
const powers = new WeakMap<Table, Map<number, Table>>();

/** Joined with itself so many times, by squares. */
function power(table: Table, count: number): Table {
  if (count === 0) return NOTHING;
  const known = powers.get(table) ?? new Map<number, Table>();
  powers.set(table, known);
  const found = known.get(count);
  if (found) return found;
  const half = power(table, Math.floor(count / 2));
  const even = join(half, half);
  const joined = count % 2 === 1 ? join(even, table) : even;
  known.set(count, joined);
  return joined;
}

/** log P(evidence and the head-end's mode), by mode. */
export function fanLogs({ exposureDays, teeMetres, kinds }: Fan): Record<string, number> {
  const years = exposureDays / 365.25;
  const port = Object.entries(priors(ORACLE_RATES.port, 1, years));
  const modes = Object.entries(priors(HEAD_END_RATES, 1, years));
  return Object.fromEntries(
    modes.map(([headEnd, prior]) => {
      const fan = kinds
        .map((kind) => power(branch(kind, years, headEnd), kind.count))
        .reduce(join, NOTHING);
      const seen = teeMetres === undefined ? fan : overSpan(fan, teeMetres, years);
      const logs = port.flatMap(([mode, chance]) =>
        VIEWS.map((view) => {
          const output = mode === 'ok' ? 15 : 15 & ~SUPPLY_BIT;
          return Math.log(prior * chance) + (seen[output & ~view]!.get(view) ?? -Infinity);
        }),
      );
      return [headEnd, logSum(logs)];
    }),
  );
}

/** log P(evidence), from what `fanLogs` says of it. */
export const logEvidenceOf = (logs: Record<string, number>) => logSum(Object.values(logs));

export const HEAD_END_FAULTS = Object.keys(HEAD_END_RATES);

/** The same fan as a request. */
export function fanRequest({ exposureDays, teeMetres, kinds }: Fan) {
  const fedFrom = teeMetres === undefined ? null : 'T';
  const tee = { id: 'T', kind: 'junction-box', cableMetres: teeMetres ?? 0, fedFrom: null };
  const branches = kinds.flatMap(({ count, cableMetres, said }, k) =>
    Array.from({ length: count }, (_, i) => ({
      node: { id: `K${k}-${i}`, kind: 'station', cableMetres, fedFrom },
      said,
    })),
  );
  return {
    begunBy: 'round',
    trunks: [
      {
        id: 'A',
        nodes: [...(teeMetres === undefined ? [] : [tee]), ...branches.map(({ node }) => node)],
      },
    ],
    exposureDays,
    observations: branches.flatMap(({ node, said }) =>
      said.map(([func, outcome, kind]) => ({
        trunk: 'A',
        node: node.id,
        function: func,
        outcome,
        informant: { kind },
      })),
    ),
    explanations: 0,
  };
}
