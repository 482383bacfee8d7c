import { modeChances } from '../model/mode-chances.js';
import { PORT_MODES } from '../model/modes.js';
import type { RateTables } from '../model/rates.js';
import type { ContextPlan } from './contexts.js';
import type { HeadEndGroups } from './head-end-groups.js';
import { nodeLikelihood } from './node-likelihood.js';
import { type SpanChances, spanChances } from './span-chances.js';
import { type StationChances, stationChances } from './station-classes.js';
import type { TrunkTree } from './trunk-tree.js';
import type { ConfusionFlag, Voice } from './voices.js';

/** Everything that the two sweeps of one trunk need: priors, likelihoods, contexts. */
export interface TrunkModel {
  readonly tree: TrunkTree;
  readonly plan: ContextPlan;
  readonly flags: readonly ConfusionFlag[];
  readonly junction: readonly SpanChances[];
  readonly cable: readonly SpanChances[];
  /** Null at a junction box. */
  readonly station: readonly (StationChances | null)[];
  /** As nodeLikelihood lays it out; null at a node without evidence. */
  readonly likelihood: readonly (Float64Array | null)[];
  readonly portOk: number;
  readonly portNoOutput: number;
}

/** Remembers by one key: most nodes share an exposure, most unmentioned stations share their evidence. */
function remembered<K, V>(make: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = make(key);
    known.set(key, made);
    return made;
  };
}

function likelihoods(
  voices: readonly (readonly Voice[])[],
  plan: ContextPlan,
  headEnd: HeadEndGroups,
): (Float64Array | null)[] {
  const numbers = new Map<Voice, number>();
  const known = new Map<string, Float64Array>();
  return voices.map((heard, n) => {
    if (heard.length === 0) return null;
    const flags = plan.nodeFlags[n] ?? [];
    const ids = heard.map((voice) => {
      const number = numbers.get(voice) ?? numbers.size;
      numbers.set(voice, number);
      return number;
    });
    // Stations that nobody mentioned share their voices, and so one table.
    const key = `${ids.join()} ${flags.join()}`;
    const table = known.get(key) ?? nodeLikelihood(heard, headEnd.disables, flags);
    known.set(key, table);
    return table;
  });
}

export function trunkModel(
  tree: TrunkTree,
  voices: readonly (readonly Voice[])[],
  plan: ContextPlan,
  flags: readonly ConfusionFlag[],
  given: { rates: RateTables; years: number; headEnd: HeadEndGroups },
): TrunkModel {
  const { rates, years, headEnd } = given;
  const junctionOf = remembered((t: number) => spanChances(rates.junction, 1, t));
  const stationOf = remembered((t: number) => stationChances(rates.station, t));
  const port = modeChances(
    PORT_MODES.map((mode) => rates.port[mode] ?? 0),
    years,
  );
  return {
    tree,
    plan,
    flags,
    junction: Array.from(tree.years, junctionOf),
    cable: Array.from(tree.years, (t, n) =>
      spanChances(rates.cablePerMetre, tree.cableMetres[n] ?? 0, t),
    ),
    station: Array.from(tree.years, (t, n) => (tree.isStation[n] ? stationOf(t) : null)),
    likelihood: likelihoods(voices, plan, headEnd),
    portOk: port.ok,
    portNoOutput: port.modes[0] ?? 0,
  };
}
