import { headEndRates } from '../locator/oracle/mode-chances.js';
import { ORACLE_RATES } from '../locator/oracle/tables.js';
import type { Random, Site } from './site.js';

export type Rates = typeof ORACLE_RATES;
type RateGroup = keyof Rates;

/** The fault model's section 2, as the tests' oracle has it; of a head-end without groups. */
export const MODEL_RATES: Rates = {
  ...ORACLE_RATES,
  headEnd: headEndRates({ trunks: [] }, ORACLE_RATES.headEnd),
};

/** The true mode of every component; `ok` or a fault. A junction box's `station` is always `ok`. */
export interface Faults {
  headEnd: string;
  trunks: TrunkFaults[];
}

export interface TrunkFaults {
  port: string;
  /** By node: of the span that feeds it, from the feeder's end, and of its station. */
  nodes: NodeFaults[];
}

export interface NodeFaults {
  junctionOut: string;
  cable: string;
  junctionIn: string;
  station: string;
}

export const totalRate = (rates: Record<string, number>) =>
  Object.values(rates).reduce((sum, rate) => sum + rate, 0);

function drawMode(
  rates: Record<string, number>,
  total: number,
  yearsOrMetreYears: number,
  random: Random,
): string {
  if (random() >= 1 - Math.exp(-total * yearsOrMetreYears)) return 'ok';
  let left = random() * total;
  for (const [mode, rate] of Object.entries(rates)) {
    left -= rate;
    if (left < 0) return mode;
  }
  return Object.keys(rates).at(-1) ?? 'ok';
}

/** Every component's mode from its prior: competing risks since it was last proven good. */
export function drawFaults(site: Site, rates: Rates, random: Random): Faults {
  const years = site.exposureDays / 365.25;
  const totals = Object.fromEntries(
    Object.entries(rates).map(([group, table]) => [group, totalRate(table)]),
  ) as Record<RateGroup, number>;
  const draw = (group: RateGroup, scale: number) =>
    drawMode(rates[group], totals[group], scale * years, random);
  return {
    headEnd: draw('headEnd', 1),
    trunks: site.trunks.map(({ nodes }) => ({
      port: draw('port', 1),
      nodes: nodes.map(({ kind, cableMetres }) => ({
        junctionOut: draw('junction', 1),
        cable: draw('cablePerMetre', cableMetres),
        junctionIn: draw('junction', 1),
        station: kind === 'station' ? draw('station', 1) : 'ok',
      })),
    })),
  };
}

/** Another table with every rate changed; `factor` is asked once for each mode. */
export function scaleRates(factor: () => number): Rates {
  return Object.fromEntries(
    Object.entries(MODEL_RATES).map(([group, table]) => [
      group,
      Object.fromEntries(Object.entries(table).map(([mode, rate]) => [mode, rate * factor()])),
    ]),
  ) as Rates;
}
