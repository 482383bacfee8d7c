import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../posterior/locate-result.js';
import { comparePlaces, sortLargestFirst } from '../posterior/order.js';
import { DEFAULT_ERROR_RATES, type ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { SpanMode } from '../../plan/modes.js';
import { InvalidLocateRequest } from '../request/errors.js';
import { REACH_NEEDED } from '../sweep/feed-classes.js';
import { allContexts } from '../sweep/live-contexts.js';
import { logAdd } from '../numbers/log-add.js';
import { joinTrunks, siteModel, type SiteModel } from '../sweep/site.js';
import type { SpanChances } from '../sweep/span-chances.js';
import { sweepDown, sweepUp, type UpwardSweep } from '../sweep/sweep-trunk.js';
import { type NodeWeights, trunkLikelihood, type TrunkModel } from '../sweep/trunk-model.js';
import { PASSING_OPENS, type PassingOpen } from './passing-opens.js';
import { presences } from './presences.js';
import type { SittingsRequest } from './sittings-request.js';
import { spanLogRatios } from './span-log-ratios.js';

/** For each open that stays, so many that come and go. An invented starting value, to be replaced by a firm's record. */
export const PASSING_SHARE = 0.25;

/** Each sitting doubles the work. */
export const MAX_SITTINGS = 6;

export interface PassingSpan {
  place: Extract<Place, { kind: 'span' }>;
  /** P(something of this span comes and goes | evidence). */
  probability: number;
  components: { component: ComponentName; probability: number }[];
  /** P(it comes and goes in this way | evidence). */
  modes: Partial<Record<SpanMode, number>>;
}

export interface Intermittent {
  /** Natural logarithm of P(evidence) with what comes and goes among the hypotheses. */
  logEvidence: number;
  /** P(nothing comes and goes | evidence): the share of all that `locate` says. */
  nothing: number;
  /** Every span, most probable first; equals by id. */
  spans: PassingSpan[];
}

/**
 * Whether something comes and goes (fault model, section 7): at most one component of one span is open in some sittings
 * and closed in others, in each sitting by itself with chance PRESENT_IN_A_SITTING, on top of any number of faults that
 * stay. Its prior odds are PASSING_SHARE of the faults to be expected of each open mode there.
 *
 * Exact but for one simplification: while it is open it hides no short behind it from the head-end. So what stays is in
 * one state throughout, and all that changes is the feed behind the open one in some sittings, which follows from the
 * feed that would have arrived. One sweep up for each kind of open and each set of sittings, and every span's hypothesis
 * is a product of two messages. Readings are left out: what was measured once says nothing of the other sittings.
 *
 * @throws InvalidLocateRequest for more than MAX_SITTINGS sittings, and as `locate` does for too many informants
 */
export function intermittent(
  request: SittingsRequest,
  errors: ErrorRates = DEFAULT_ERROR_RATES,
  expected?: ExpectedFaults,
): Intermittent {
  checkSittings(request);
  const site = siteModel({ ...request, readings: [] }, errors, expected, { wholeOnly: true });
  const sweeps = site.trunks.map(sweepUp);
  const joined = joinTrunks(
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
  );
  const found = sweeps.flatMap((sweep, t) => {
    // All contexts: what is out of the question for what stays may not be so for what comes and goes.
    sweepDown(sweep, joined.logWeights[t] ?? new Float64Array(), allContexts(site.headEnd.count));
    return trunkHypotheses(site, sweep);
  });
  const odds = found.reduce((sum, { priorOdds }) => sum + priorOdds, 0);
  const log = found.reduce((sum, { logOdds }) => logAdd(sum, logOdds), 0);
  return {
    logEvidence: joined.logEvidence + site.logSeen + log - Math.log1p(odds),
    nothing: Math.exp(-log),
    spans: bySpan(found, log),
  };
}

interface Hypothesis {
  place: PassingSpan['place'];
  component: ComponentName;
  mode: SpanMode;
  priorOdds: number;
  /** Against "nothing comes and goes", after the evidence. */
  logOdds: number;
}

const COMPONENTS = [
  ['junctionOut', 'junction-out'],
  ['cable', 'cable'],
  ['junctionIn', 'junction-in'],
] as const satisfies (readonly [keyof NodeWeights & keyof TrunkModel, ComponentName])[];

function trunkHypotheses(site: SiteModel, sweep: UpwardSweep): Hypothesis[] {
  const { tree, weights, ...model } = sweep.model;
  return PASSING_OPENS.flatMap((open) => {
    const logGain = logGains(site, sweep, open);
    return tree.nodeIds.flatMap((to, n) => {
      const from = tree.nodeIds[tree.parent[n] ?? -1] ?? null;
      const place = { kind: 'span', trunk: tree.id, from, to } as const;
      return COMPONENTS.flatMap(([key, component]) => {
        const chances = model[key][n];
        const table = weights[n]?.[key];
        if (!chances || !table) return [];
        return open.modes.map((mode) => {
          const priorOdds = PASSING_SHARE * expectedOf(mode, chances, table);
          const logOdds = Math.log(priorOdds) + (logGain[n] ?? 0);
          return { place, component, mode, priorOdds, logOdds };
        });
      });
    });
  });
}

/** The faults to be expected of one mode: its share of Λ = -ln P(ok). */
function expectedOf(mode: SpanMode, { effects }: SpanChances, table: NodeWeights['cable']): number {
  const total = Object.values(table).reduce((sum, weight) => sum + weight, 0);
  const faulty = effects.reduce((sum, chance) => sum + chance, 0);
  return total > 0 ? ((table[mode] ?? 0) / total) * -Math.log1p(-faulty) : 0;
}

/** By span: ln of what the evidence gains if something of it is open like this in some sittings. */
function logGains(site: SiteModel, sweep: UpwardSweep, open: PassingOpen): Float64Array {
  const { model } = sweep;
  const gains = new Float64Array(model.tree.count).fill(-Infinity);
  for (const { sittings, chance } of presences(sittingsTouched(model, open))) {
    const ratios =
      sittings.size === 0
        ? new Float64Array(gains.length)
        : spanLogRatios(sweep, sweepUp(whileOpen(site, model, open, sittings)));
    ratios.forEach((ratio, n) => {
      gains[n] = logAdd(gains[n] ?? -Infinity, Math.log(chance) + ratio);
    });
  }
  return gains;
}

/** Sittings that say anything on this trunk which such an open would change. */
function sittingsTouched({ voices }: TrunkModel, { reachLeft }: PassingOpen): number[] {
  const statements = voices.flatMap((heard) => heard.flatMap((voice) => voice.statements));
  const touched = statements.filter(({ func }) => (REACH_NEEDED[func] ?? 0) > reachLeft);
  return [...new Set(touched.map(({ sitting }) => sitting))].sort((a, b) => a - b);
}

/** The trunk as if the open were at its very start; below any span it looks the same as with the open there. */
function whileOpen(
  site: SiteModel,
  model: TrunkModel,
  { feltFeed }: PassingOpen,
  sittings: ReadonlySet<number>,
): TrunkModel {
  const felt = (sitting: number, feed: number) =>
    sittings.has(sitting) ? (feltFeed[feed] ?? feed) : feed;
  const likelihood = trunkLikelihood(model, site.headEnd, felt);
  return { ...model, likelihood };
}

function bySpan(found: readonly Hypothesis[], logTotal: number): PassingSpan[] {
  const spans = new Map<string, PassingSpan & { shares: Map<ComponentName, number> }>();
  for (const { place, component, mode, logOdds } of found) {
    const key = JSON.stringify([place.trunk, place.to]);
    const span = spans.get(key) ?? {
      place,
      probability: 0,
      components: [],
      modes: {},
      shares: new Map<ComponentName, number>(),
    };
    const chance = Math.exp(logOdds - logTotal);
    span.probability += chance;
    span.modes[mode] = (span.modes[mode] ?? 0) + chance;
    span.shares.set(component, (span.shares.get(component) ?? 0) + chance);
    spans.set(key, span);
  }
  const listed = [...spans.values()].map(({ shares, ...span }) => ({
    ...span,
    components: COMPONENTS.map(([, component]) => {
      return { component, probability: shares.get(component) ?? 0 };
    }),
  }));
  return sortLargestFirst(
    listed,
    (span) => span.probability,
    (a, b) => comparePlaces(a.place, b.place),
  );
}

function checkSittings({ observations }: SittingsRequest): void {
  const sittings = new Set(observations.map(({ sitting }) => sitting));
  if (sittings.size <= MAX_SITTINGS) return;
  const reason = `was gathered in ${sittings.size} sittings; at most ${MAX_SITTINGS} are allowed`;
  throw new InvalidLocateRequest([{ pointer: '/observations', reason }]);
}
