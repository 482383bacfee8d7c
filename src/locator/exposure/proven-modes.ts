import { type CoreSet, SUPPLY } from '../../plan/cores.js';
import type { HeadEndMode, PortMode, SpanMode, StationMode } from '../../plan/modes.js';
import type { PlanTables } from '../../plan/plan-tables.js';

/** The modes that cannot have been there when a function was seen to work at a station. */
export interface ProvenModes {
  headEnd: readonly HeadEndMode[];
  port: readonly PortMode[];
  /** Of each component of each span on the path there. */
  span: readonly SpanMode[];
  /** Of the station itself. */
  station: readonly StationMode[];
  /** Of each station on the path there, itself among them: a short of a core that was used would have been seen. */
  stationOnPath: readonly StationMode[];
}

/**
 * A function that works proves the cores that it used (fault model, section 7): none was open or shorted to return on
 * the path, and the feed was not weak, which is an outcome of its own. An announcement thus proves speech, not select.
 */
function provenModes(plan: PlanTables, func: number): ProvenModes {
  const cores: CoreSet = plan.coresNeeded[func] ?? 0;
  const bit = 1 << func;
  return {
    headEnd: plan.siteModes.filter((mode) => plan.headEndDisables[mode] & bit),
    port: cores & SUPPLY ? plan.portModes : [],
    span: plan.spanModes.filter((mode) => {
      const { removes, shorts, weakens } = plan.spanEffects[mode];
      return weakens || (removes | shorts) & cores;
    }),
    station: plan.stationModes.filter((mode) => plan.stationDisables[mode] & bit),
    stationOnPath: plan.stationShort !== undefined && cores & SUPPLY ? [plan.stationShort] : [],
  };
}

const known = new WeakMap<PlanTables, readonly ProvenModes[]>();

/** By function of the plan. */
export function provenByFunction(plan: PlanTables): readonly ProvenModes[] {
  const found = known.get(plan) ?? plan.functions.map((_, func) => provenModes(plan, func));
  known.set(plan, found);
  return found;
}
