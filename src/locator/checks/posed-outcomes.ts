import { type InformantErrors, type InformantKind, OUTCOMES } from '../../plan/error-rates.js';
import { SEEN } from '../../plan/look-errors.js';
import type { HeadEndMode } from '../../plan/modes.js';
import { headEndEffect } from '../../plan/plan-tables.js';
import type {
  LocateRequest,
  RequestLook,
  RequestObservation,
  RequestReading,
} from '../request/locate-request.js';
import type { SiteModel } from '../sweep/site.js';
import { systemOf } from '../sweep/system.js';
import type { CheckAction } from './check-action.js';
import { type OutcomeRows, VOLTS_ROWS } from './check-outcomes.js';
import { siteGivenStation } from './site-given.js';
import { DEAD_FEED, type FeedClasses } from '../sweep/feed-classes.js';

/** The evidence once a check has come out in one way: by the request, or by what `given` makes of the site before it. */
export interface Posed {
  readonly request: LocateRequest;
  readonly given?: (site: SiteModel) => SiteModel;
}

function withTold(request: LocateRequest, told: RequestObservation): Posed {
  return { request: { ...request, observations: [...(request.observations ?? []), told] } };
}

function withLook(request: LocateRequest, look: RequestLook): Posed {
  return { request: { ...request, looks: [...(request.looks ?? []), look] } };
}

function withReading(request: LocateRequest, reading: RequestReading): Posed {
  return { request: { ...request, readings: [...(request.readings ?? []), reading] } };
}

/** By class of feed, log P(the supply is read as full, weak or dead). */
function logVolts({ count, weak }: FeedClasses, read: number): Float64Array {
  return Float64Array.from({ length: count }, (_, feed) => {
    const truth = feed === DEAD_FEED ? 2 : (weak[feed] ?? 0);
    return Math.log(VOLTS_ROWS[truth]?.[read] ?? 0);
  });
}

function withVolts(site: SiteModel, trunk: string, node: string, read: number): SiteModel {
  const trunks = site.trunks.map((model) => {
    const n = model.tree.id === trunk ? model.tree.nodeIds.indexOf(node) : -1;
    if (n < 0) return model;
    const before = model.readings;
    const volts = model.tree.nodeIds.map((_, at) => before?.volts[at] ?? null);
    const own = logVolts(site.system.feedClasses, read);
    volts[n] = volts[n]?.map((log, feed) => log + (own[feed] ?? 0)) ?? own;
    const none = { stretches: [], loops: [], logFlat: 0 };
    return { ...model, readings: { ...none, ...before, volts } };
  });
  return { ...site, trunks };
}

/** What is found of a function with nothing disconnected, as evidence only: it makes no point. */
function withFound(
  site: SiteModel,
  { trunk, node, function: name }: Extract<CheckAction, { kind: 'function' }>,
  rows: OutcomeRows,
  outcome: number,
): SiteModel {
  const t = site.trunks.findIndex(({ tree }) => tree.id === trunk);
  const n = site.trunks[t]?.tree.nodeIds.indexOf(node) ?? -1;
  const func = site.system.plan.functions.indexOf(name);
  return siteGivenStation(site, { t, n, func, mended: 0 }, rows, outcome);
}

/** The evidence after each outcome of a check made by an informant of this kind, who errs so. */
export function posedOutcomes(
  request: LocateRequest,
  action: CheckAction,
  kind: InformantKind,
  errors: InformantErrors,
): Posed[] {
  const informant = { kind };
  const { volumeMode, cores } = systemOf(request.plan).plan;
  switch (action.kind) {
    case 'function': {
      const rows = [errors.good, errors.weak, errors.dead];
      return OUTCOMES.map((_, outcome) => ({
        request,
        given: (site: SiteModel) => withFound(site, action, rows, outcome),
      }));
    }
    case 'isolation': {
      const { trunk, node, function: name } = action;
      return OUTCOMES.map((outcome) =>
        withTold(request, {
          ...{ trunk, node, function: name },
          outcome,
          informant,
          disconnectedBelow: node,
        }),
      );
    }
    case 'volume-knob': {
      const place = { kind: 'station', trunk: action.trunk, node: action.node } as const;
      return volumeMode === undefined
        ? []
        : SEEN.map((seen) => withLook(request, { place, part: volumeMode, seen, informant }));
    }
    case 'head-end': {
      const { setting } = action;
      const { group } = headEndEffect(systemOf(request.plan).plan, setting);
      const part = (group === null ? setting : setting.slice(0, -group.length - 1)) as HeadEndMode;
      const look = { place: { kind: 'head-end' }, part, ...(group !== null && { group }) } as const;
      return SEEN.map((seen) => withLook(request, { ...look, seen, informant }));
    }
    case 'open-junction': {
      const { trunk, from, to, component } = action;
      const place = { kind: 'span', trunk, from, to } as const;
      return SEEN.map((seen) => withLook(request, { place, part: component, seen, informant }));
    }
    case 'continuity': {
      const { trunk, from, to } = action;
      return [true, false].map((passes) =>
        withReading(request, { kind: 'continuity', trunk, from, to, cores: [...cores], passes }),
      );
    }
    case 'supply-volts':
      return [0, 1, 2].map((read) => ({
        request,
        given: (site: SiteModel) => withVolts(site, action.trunk, action.node, read),
      }));
  }
}
