import { exp } from '../../elementary/exp.js';
import { ln, log1p } from '../../elementary/ln.js';
import type { Place } from '../../drawing/drawn-node.js';
import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { SpanMode } from '../../plan/modes.js';
import { logAdd } from '../numbers/log-add.js';
import type { ComponentName } from '../posterior/locate-result.js';
import { comparePlaces, sortLargestFirst } from '../posterior/order.js';
import { InvalidLocateRequest } from '../request/errors.js';
import { siteModel, type SiteModel } from '../sweep/site.js';
import { siteWithin } from '../sweep/site-within.js';
import { type NodeWeights } from '../sweep/priors.js';
import { feltBehind, passingOpens, type PassingOpen } from './passing-opens.js';
import { headEndGains, portGain, stationGain } from './passing-parts.js';
import { sittingsTouched } from './passing-sweeps.js';
import { presences } from './presences.js';
import { PriorOdds } from './prior-odds.js';
import { quietSittings, type SweptSittings, sweepSittings } from './sitting-sweeps.js';
import type { SittingsRequest } from './sittings-request.js';
import { spanLogRatios } from './span-log-ratios.js';

/** Each sitting doubles the work. */
export const MAX_SITTINGS = 6;

/** Tables of a site times the sets of sittings in which something may be there; each takes some thirty sweeps. */
const MOST_TABLES = 160_000;

export interface PassingSpan {
  place: Extract<Place, { kind: 'span' }>;
  /** P(something of this span comes and goes | evidence). */
  probability: number;
  components: { component: ComponentName; probability: number }[];
  /** P(it comes and goes in this way | evidence). */
  modes: Partial<Record<SpanMode, number>>;
}

/** A part of the head-end, a port or a station. */
export interface PassingPart {
  place: Exclude<Place, { kind: 'span' }>;
  /** P(something of it comes and goes | evidence), and in which way. */
  probability: number;
  modes: Record<string, number>;
}

export interface Intermittent {
  /** Natural logarithm of P(evidence) with what comes and goes among the hypotheses. */
  logEvidence: number;
  /** P(nothing comes and goes | evidence): the share of all that `locate` says. */
  nothing: number;
  /** Every span, most probable first; equals by id. */
  spans: PassingSpan[];
  /** The head-end, every port and every station in the same way. */
  parts: PassingPart[];
  /** Ids of informants who count as anybody here, or they would be too many. */
  identitiesDropped?: string[];
}

/**
 * Whether something comes and goes (fault model, section 7): at most one component of the site is faulty in some sittings
 * and good in others, in each sitting by itself with chance PRESENT_IN_A_SITTING, on top of any number of faults that
 * stay: a component of a span that is open, a mode of the head-end, a port without output, a mode of a station. Its prior
 * odds are PASSING_SHARE of the faults to be expected of each such mode; a look at it misses half. What was complained of
 * must have been so in its sitting for a world not to be quiet.
 *
 * Exact but for one simplification: an open that comes and goes hides no short behind it from the head-end. So what stays
 * is in one state throughout, and all that changes is what is felt in some sittings. One sweep up for each kind of open and
 * each set of sittings, and every span's hypothesis is a product of two messages; the same for each group of the head-end's
 * modes and each port; a station's hypothesis needs none. Readings are left out: what was measured once says nothing of
 * the other sittings.
 * More callers than can be swept so often count as anybody, those with the fewest words first.
 *
 * @throws InvalidLocateRequest for more than MAX_SITTINGS sittings, and as `locate` does for too many informants
 */
export function intermittent(
  request: SittingsRequest,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
): Intermittent {
  const sittings = checkedSittings(request);
  const { site, identitiesDropped } = siteWithin(
    MOST_TABLES / 2 ** sittings,
    { ...request, readings: [] },
    (one) => siteModel(one, errors, expected, { wholeOnly: true }),
  );
  const swept = sweepSittings(site);
  const quietSite = quietSittings(site);
  const quiet = quietSite && sweepSittings(quietSite);
  const weigh = weighing(swept, quiet, site.falseAlarmRatio);
  const gains = (of: (one: SweptSittings) => Float64Array): Float64Array => {
    const [all, inQuiet] = [of(swept), quiet ? of(quiet) : null];
    return all.map((gain, i) => weigh(gain, inQuiet ? (inQuiet[i] ?? -Infinity) : -Infinity));
  };
  const odds = new PriorOdds(request, site, expected, errors ?? site.system.plan.plan.errors);
  const found = [
    ...site.trunks.flatMap((_, t) => spanHypotheses(site, t, odds, gains)),
    ...partHypotheses(site, odds, gains),
  ];
  const [logNothing = 0] = gains(() => new Float64Array(1));
  const before = found.reduce((sum, { priorOdds }) => sum + priorOdds, 0);
  const log = found.reduce((sum, { logOdds }) => logAdd(sum, logOdds), logNothing);
  return {
    logEvidence: swept.joined.logEvidence + site.logSeen + log - log1p(before),
    nothing: exp(logNothing - log),
    spans: bySpan(found.filter(isOfSpan), log),
    parts: byPart(
      found.filter((one) => !isOfSpan(one)),
      log,
    ),
    ...(identitiesDropped.length > 0 && { identitiesDropped }),
  };
}

/** From what the evidence gains, over all worlds and over the quiet ones, to what it gains where quiet ones weigh less. */
function weighing(all: SweptSittings, quiet: SweptSittings | null, falseAlarmRatio: number) {
  const logQuiet = quiet ? quiet.joined.logEvidence - all.joined.logEvidence : -Infinity;
  return (gain: number, gainInQuiet: number): number => {
    const share = exp(logQuiet + gainInQuiet - gain);
    return gain + log1p(-(1 - falseAlarmRatio) * Math.min(1, share));
  };
}

type Gains = (of: (one: SweptSittings) => Float64Array) => Float64Array;

interface Hypothesis {
  place: Place;
  component: ComponentName;
  mode: string;
  priorOdds: number;
  /** Against "nothing comes and goes", after the evidence. */
  logOdds: number;
}

type SpanHypothesis = Hypothesis & { place: PassingSpan['place']; mode: SpanMode };

const isOfSpan = (one: Hypothesis): one is SpanHypothesis => one.place.kind === 'span';

const COMPONENTS = [
  ['junctionOut', 'junction-out'],
  ['cable', 'cable'],
  ['junctionIn', 'junction-in'],
] as const satisfies (readonly [keyof NodeWeights, ComponentName])[];

function spanHypotheses(
  site: SiteModel,
  t: number,
  odds: PriorOdds,
  gains: Gains,
): SpanHypothesis[] {
  const tree = site.trunks[t]?.tree;
  if (!tree) return [];
  return passingOpens(site.system).flatMap((open) => {
    const logGain = gains((swept) => logGains(swept, t, open));
    return tree.nodeIds.flatMap((to, n) => {
      const from = tree.nodeIds[tree.parent[n] ?? -1] ?? null;
      const place = { kind: 'span', trunk: tree.id, from, to } as const;
      return COMPONENTS.flatMap(([key, component]) =>
        open.modes.map((mode) => {
          const priorOdds = odds.ofSpan(t, n, key, mode, place, component);
          const logOdds = ln(priorOdds) + (logGain[n] ?? 0);
          return { place, component, mode, priorOdds, logOdds };
        }),
      );
    });
  });
}

/** Of the head-end, ports and stations. */
function partHypotheses(site: SiteModel, odds: PriorOdds, gains: Gains): Hypothesis[] {
  const hypothesis = (
    place: Place,
    component: ComponentName,
    mode: string,
    priorOdds: number,
    gain: number,
  ): Hypothesis => ({ place, component, mode, priorOdds, logOdds: ln(priorOdds) + gain });
  const { plan, stationClasses } = site.system;
  // A short of the supply silences the whole trunk, not the station: no hypothesis here.
  const stationModes = plan.stationModes.filter((mode) => mode !== plan.stationShort);
  const headEnd = gains(headEndGains);
  const ports = gains((swept) => Float64Array.from(site.trunks, (_, t) => portGain(swept, t)));
  return [
    ...site.headEnd.modes.map((mode, m) => {
      const gain = headEnd[site.headEnd.ofMode[m + 1] ?? 0] ?? 0;
      return hypothesis({ kind: 'head-end' }, 'head-end', mode, odds.ofHeadEnd(mode), gain);
    }),
    ...site.trunks.flatMap(({ tree, station }, t) => {
      const trunk = tree.id;
      const byClass = stationClasses.disables.map((disabled) =>
        gains((swept) =>
          Float64Array.from(station, (own, n) => (own ? stationGain(swept, t, n, disabled) : 0)),
        ),
      );
      return [
        ...plan.portModes.map((mode) =>
          hypothesis({ kind: 'port', trunk }, 'port', mode, odds.ofPort(t, mode), ports[t] ?? 0),
        ),
        ...tree.nodeIds.flatMap((node, n) => {
          if (!station[n]) return [];
          return stationModes.map((mode) => {
            const gain =
              byClass[stationClasses.disables.indexOf(plan.stationDisables[mode])]?.[n] ?? 0;
            const place = { kind: 'station', trunk, node } as const;
            return hypothesis(place, 'station', mode, odds.ofStation(t, n, mode), gain);
          });
        }),
      ];
    }),
  ];
}

/** By span: ln of what the evidence gains if something of it is open like this in some sittings. */
function logGains({ site, sweeps, passing }: SweptSittings, t: number, open: PassingOpen) {
  const sweep = sweeps[t];
  if (!sweep) return new Float64Array();
  const felt = feltBehind(open, site.system);
  const gains = new Float64Array(sweep.model.tree.count).fill(-Infinity);
  for (const { sittings, chance } of presences(sittingsTouched(sweep.model, felt))) {
    const behind = passing[t]?.sweep(felt, sittings) ?? sweep;
    const ratios = behind === sweep ? null : spanLogRatios(sweep, behind);
    gains.forEach((gain, n) => (gains[n] = logAdd(gain, ln(chance) + (ratios?.[n] ?? 0))));
  }
  return gains;
}

function bySpan(found: readonly SpanHypothesis[], logTotal: number): PassingSpan[] {
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
    const chance = exp(logOdds - logTotal);
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

function byPart(found: readonly Hypothesis[], logTotal: number): PassingPart[] {
  const parts = new Map<string, PassingPart>();
  for (const { place, mode, logOdds } of found) {
    if (place.kind === 'span') continue;
    const key = JSON.stringify(place);
    const part = parts.get(key) ?? { place, probability: 0, modes: {} };
    const chance = exp(logOdds - logTotal);
    part.probability += chance;
    part.modes[mode] = (part.modes[mode] ?? 0) + chance;
    parts.set(key, part);
  }
  return sortLargestFirst(
    [...parts.values()],
    (part) => part.probability,
    (a, b) => comparePlaces(a.place, b.place),
  );
}

/** How many there are. */
function checkedSittings({ observations }: SittingsRequest): number {
  const { size } = new Set(observations.map(({ sitting }) => sitting));
  if (size <= MAX_SITTINGS) return size;
  const reason = `was gathered in ${size} sittings; at most ${MAX_SITTINGS} are allowed`;
  throw new InvalidLocateRequest([{ pointer: '/observations', reason }]);
}
