import { type InformantErrors, type InformantKind, OUTCOMES } from '../../plan/error-rates.js';
import type { FunctionSet } from '../../plan/functions.js';
import { SEEN } from '../../plan/look-errors.js';
import type { LocateRequest } from '../request/locate-request.js';
import { lookFactors } from '../sweep/looks.js';
import type { SiteModel } from '../sweep/site.js';
import type { CheckAction } from './check-action.js';
import { CONTINUITY_ROWS, type OutcomeRows } from './check-outcomes.js';
import {
  siteGivenHeadEnd,
  siteGivenJunction,
  siteGivenStation,
  siteGivenUnit,
  siteGivenVolts,
  siteWithoutOpens,
} from './site-given.js';
import { spansTo } from './spans-in-question.js';

/**
 * The outcomes of a check as sums of what is known before it and of a few sites that each must be swept. All outcomes
 * together are what is known before: so there is one site fewer than outcomes.
 */
export interface WeighedOutcomes {
  readonly sites: readonly ((site: SiteModel) => SiteModel)[];
  /** By outcome: how often it has what is known before, and how often each of the sites. */
  readonly shares: readonly (readonly number[])[];
  /** A function that the head-end's groups must tell apart where it is tried; null for none. */
  readonly tried: { readonly t: number; readonly n: number; readonly func: number } | null;
}

type Told = Exclude<CheckAction, { kind: 'isolation' }>;

/** The last outcome is what the others leave. */
function allButLast(
  count: number,
  siteGiven: (site: SiteModel, outcome: number) => SiteModel,
): Pick<WeighedOutcomes, 'sites' | 'shares'> {
  const swept = Array.from({ length: count - 1 }, (_, outcome) => outcome);
  return {
    sites: swept.map((outcome) => (site) => siteGiven(site, outcome)),
    shares: [
      ...swept.map((outcome) => [0, ...swept.map((other) => (other === outcome ? 1 : 0))]),
      [1, ...swept.map(() => -1)],
    ],
  };
}

/** Told by an informant of this kind, who errs so. Null where there is nothing to look at. */
export function weighedOutcomes(
  { system, headEnd, trunks }: SiteModel,
  action: Told,
  kind: InformantKind,
  errors: Readonly<Record<InformantKind, InformantErrors>>,
): WeighedOutcomes | null {
  const own = errors[kind];
  const { plan, volumeMode } = system.plan;
  const soundAt = (covered: string, modes: readonly string[]) =>
    lookFactors(plan, { kind, covered, seen: SEEN[0] }, modes, errors);
  if (action.kind === 'head-end') {
    const seen = soundAt(action.setting, headEnd.modes);
    return { ...allButLast(2, (site) => siteGivenHeadEnd(site, seen)), tried: null };
  }
  const t = trunks.findIndex(({ tree }) => tree.id === action.trunk);
  const trunk = trunks[t];
  if (!trunk) return null;
  const nodes = trunk.tree.nodeIds;
  const n = nodes.indexOf('node' in action ? action.node : action.to);
  switch (action.kind) {
    case 'function': {
      const rows: OutcomeRows = [own.good, own.weak, own.dead];
      const tried = { t, n, func: system.plan.functions.indexOf(action.function) };
      const at = { ...tried, mended: 0 };
      const outcomes = allButLast(OUTCOMES.length, (site, o) =>
        siteGivenStation(site, at, rows, o),
      );
      return { ...outcomes, tried };
    }
    case 'supply-volts':
      return { ...allButLast(3, (site, read) => siteGivenVolts(site, t, n, read)), tried: null };
    case 'volume-knob': {
      const seen = soundAt(volumeMode ?? '', system.plan.stationModes);
      return { ...allButLast(2, (site) => siteGivenUnit(site, t, n, seen)), tried: null };
    }
    case 'open-junction': {
      const part = action.component === 'junction-out' ? 'junctionOut' : 'junctionIn';
      const seen = soundAt(action.component, system.plan.spanModes);
      return { ...allButLast(2, (site) => siteGivenJunction(site, t, n, part, seen)), tried: null };
    }
    case 'continuity': {
      const above = spansTo(trunk.tree, nodes.indexOf(action.from ?? ''));
      const spans = new Set(spansTo(trunk.tree, n).filter((one) => !above.includes(one)));
      const [ifThrough = [], ifOpen = []] = CONTINUITY_ROWS;
      return {
        sites: [(site) => siteWithoutOpens(site, t, spans)],
        shares: ifOpen.map((share, outcome) => [share, (ifThrough[outcome] ?? 0) - share]),
        tried: null,
      };
    }
  }
}

/** The evidence after each outcome of trying a function with everything past its station disconnected. */
export function toldWhileIsolated(
  request: LocateRequest,
  { trunk, node, function: name }: Extract<CheckAction, { kind: 'isolation' }>,
  kind: InformantKind,
): LocateRequest[] {
  return OUTCOMES.map((outcome) => {
    const told = { trunk, node, function: name, outcome, informant: { kind } };
    const observation = { ...told, disconnectedBelow: node };
    return { ...request, observations: [...(request.observations ?? []), observation] };
  });
}

/** Whether each of the head-end's groups leaves a function working in a zone, or silences it, in all of its modes. */
export function isToldApart({ headEnd }: SiteModel, zone: number, func: number): boolean {
  const { count, functions, enabled, disabled, disables } = headEnd;
  return Array.from({ length: count }, (_, group) => {
    const at = (zone * count + group) * functions + func;
    const silences: FunctionSet = (disables[zone]?.[group] ?? 0) & (1 << func);
    return (silences ? (enabled[at] ?? 0) : (disabled[at] ?? 0)) === 0;
  }).every((isApart) => isApart);
}
