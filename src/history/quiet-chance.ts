import { exp } from '../elementary/exp.js';
import { DEFAULT_PLAN } from '../plan/default-plan.js';
import type { FunctionName } from '../plan/functions.js';
import type { Plan, SpanFault } from '../plan/plan.js';
import { DEFAULT_RATES } from '../plan/rates.js';
import type { AsBuilt, RecordNode } from '../sites/as-built.js';

const DAYS_PER_YEAR = 365.25;
const PLAN: Plan = DEFAULT_PLAN;

interface Point {
  trunk: string;
  node: string;
  function: FunctionName;
}

type Table = Readonly<Partial<Record<string, number>>>;

/**
 * The chance, before anything was said, that all is well at these points: that nothing has failed in this time that would take
 * one of them, by the model's rates. Settings of groups are left out: they are few.
 */
export function quietChance(asBuilt: AsBuilt, points: readonly Point[], days: number): number {
  let perYear = sumOf(DEFAULT_RATES.headEnd, (mode) => takesOneOf(PLAN.headEnd[mode], points));
  for (const { trunk, nodes } of asBuilt.trunks) {
    const own = points.filter((one) => one.trunk === trunk);
    if (own.length > 0) perYear += trunkRate(nodes, own);
  }
  return exp((-perYear * days) / DAYS_PER_YEAR);
}

function sumOf(rates: Table, counts: (mode: string) => boolean): number {
  return Object.entries(rates).reduce(
    (sum, [mode, rate = 0]) => (counts(mode) ? sum + rate : sum),
    0,
  );
}

function takesOneOf(
  fault: { readonly disables: readonly string[] } | undefined,
  points: readonly Point[],
): boolean {
  return points.some((one) => fault?.disables.includes(one.function));
}

function coresOf(points: readonly Point[]): ReadonlySet<string> {
  return new Set(points.flatMap((one) => PLAN.functions[one.function] ?? []));
}

function trunkRate(nodes: readonly RecordNode[], points: readonly Point[]): number {
  const needed = coresOf(points);
  const fedFrom = new Map(nodes.map((one) => [one.node, one.fedFrom]));
  const behind = new Map<string, Point[]>();
  for (const point of points)
    for (let at: string | null | undefined = point.node; at != null; at = fedFrom.get(at)) {
      const known = behind.get(at);
      if (known === undefined) behind.set(at, [point]);
      else known.push(point);
    }
  return nodes.reduce(
    (rate, { node, cableMetres }) => {
      const cores = coresOf(behind.get(node) ?? []);
      const matters = (mode: string) => breaks(PLAN.span[mode], cores, needed);
      const here = points.filter((one) => one.node === node);
      return (
        rate +
        2 * sumOf(DEFAULT_RATES.junction, matters) +
        cableMetres * sumOf(DEFAULT_RATES.cablePerMetre, matters) +
        sumOf(DEFAULT_RATES.station, (mode) => takesOneOf(PLAN.station[mode], here))
      );
    },
    needed.has(PLAN.supply) ? sumOf(DEFAULT_RATES.port, () => true) : 0,
  );
}

/** Whether it takes a core that those behind need, or shorts one that anybody needs. */
function breaks(
  fault: SpanFault | undefined,
  behind: ReadonlySet<string>,
  needed: ReadonlySet<string>,
): boolean {
  if (fault === undefined) return false;
  if ('opens' in fault) return behind.has(fault.opens);
  if ('shorts' in fault) return needed.has(fault.shorts);
  return behind.size > 0;
}
