/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { checkErrorRates } from '../../plan/check-error-rates.js';
import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { FunctionSet } from '../../plan/functions.js';
import type { RateTables } from '../../plan/rates.js';
import { tooManyReadings } from '../readings/label-space.js';
import { trunkReadings } from '../readings/trunk-readings.js';
import { DEFAULT_FALSE_ALARM_RATIO, MAX_TABLES } from '../request/limits.js';
import type { LocateRequest, RequestObservation } from '../request/locate-request.js';
import {
  checkContexts,
  closingChances,
  contextCount,
  contextMap,
  planContexts,
  tableSize,
} from './contexts.js';
import { disconnectionsOf } from './disconnections.js';
import { identitiesBeyond, withoutIdentities } from './identities.js';
import { type BeforeSweeps, groupsInQuestion } from './groups-in-question.js';
import { groupsAsIn, type HeadEndGroups, headEndGroups, headEndModes } from './head-end-groups.js';
import { Looks } from './looks.js';
import { logAdd } from '../numbers/log-add.js';
import { type TrunkModel, trunkModel } from './trunk-model.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import { type System, systemOf } from './system.js';
import { type TrunkTree, trunkTree } from './trunk-tree.js';
import { collectStatements, type ConfusionFlag, type SiteStatements } from './statements.js';
import { type Zones, zonesOf } from './zones.js';
import { zeroTable } from '../numbers/zero-table.js';

const DAYS_PER_YEAR = 365.25;

/** A request made ready for the sweeps; trunks go by id. */
export interface SiteModel {
  readonly system: System;
  readonly rates: RateTables;
  /** Logarithm of a factor of the evidence that no message carries: what was seen, at its likeliest. */
  readonly logSeen: number;
  readonly headEnd: HeadEndGroups;
  /** What the weight of quiet worlds is multiplied by; 1 where the evidence did not begin with a complaint. */
  readonly falseAlarmRatio: number;
  readonly flags: readonly ConfusionFlag[];
  /** Informants with an id who are taken for nobody in particular: more overlap than can be carried. */
  readonly identitiesDropped: readonly string[];
  readonly trunks: readonly TrunkModel[];
}

/** By zone: the functions that something is known of. */
function functionsWithEvidence(
  zones: Zones,
  statements: SiteStatements,
  apart: FunctionSet,
): FunctionSet[] {
  const known = zones.groupsOf.map(() => apart);
  statements.at.forEach((nodes, t) =>
    nodes.forEach((heard, n) => {
      const zone = zones.of[t]![n]!;
      for (const { items } of heard) for (const { func } of items) known[zone]! |= 1 << func;
    }),
  );
  return known;
}

/** The head-end's groups that the sweeps carry. */
function headEndOf(
  before: BeforeSweeps,
  { onlyInQuestion, redrawn }: ModelOptions,
  isRead: boolean,
): HeadEndGroups {
  if (redrawn) return groupsAsIn(before.headEnd, redrawn.site.headEnd);
  return onlyInQuestion && !isRead ? groupsInQuestion(before) : before.headEnd;
}

function toldOfWhole({ observations = [] }: LocateRequest): RequestObservation[] {
  return observations.filter(({ disconnectedBelow }) => disconnectedBelow === undefined);
}

function falseAlarmRatioOf({ begunBy, falseAlarmRatio }: LocateRequest): number {
  return begunBy === 'round' ? 1 : (falseAlarmRatio ?? DEFAULT_FALSE_ALARM_RATIO);
}

export interface ModelOptions {
  /** Functions without evidence that the head-end's groups must tell apart all the same. */
  readonly apart?: FunctionSet;
  /** Leaves out what groupsInQuestion does: for what is known already, not for what may become known. */
  readonly onlyInQuestion?: boolean;
  /** Leaves out what was told while a cable was disconnected. */
  readonly wholeOnly?: boolean;
  /**
   * The site, of which the request is the same over another drawing of this trunk: keeps the head-end's groups, and makes the
   * model of the trunk alone, without the others.
   */
  readonly redrawn?: { readonly site: SiteModel; readonly trunk: string };
}

/**
 * @throws InvalidLocateRequest when the drawing is too large, readings overlap too much or a supply that was read collapses
 * @throws InvalidPlan when the error rates are none
 */
export function siteModel(
  request: LocateRequest,
  errors: ErrorRates = systemOf(request.plan).plan.plan.errors,
  expected?: ExpectedFaults,
  options: ModelOptions = {},
): SiteModel {
  const { apart = 0, wholeOnly = false, redrawn } = options;
  const system = systemOf(request.plan);
  const { plan } = system;
  checkErrorRates(errors, plan.plan);
  const rates: RateTables = { ...plan.plan.rates, ...definedOnly(request.rates) };
  const years = request.exposureDays / DAYS_PER_YEAR;
  const trees = request.trunks
    .map((trunk) => asBefore(redrawn, trunk.id) ?? trunkTree(plan, trunk, request.exposureDays))
    .sort((a, b) => compareIds(a.id, b.id));
  const { unmentioned, readings = [] } = request;
  const observations = wholeOnly ? toldOfWhole(request) : (request.observations ?? []);
  const cuts = disconnectionsOf(system, observations, trees);
  const { functions } = plan;
  const statements = collectStatements(functions, observations, unmentioned, trees, cuts, errors);
  const { at, flags } = statements;
  const looks = new Looks(plan.plan, request.looks ?? [], errors);
  const zones = zonesOf(trees);
  const faults = expected?.headEnd ?? rates.headEnd;
  const modes = headEndModes(plan, faults, expected ? 1 : years, zones, looks);
  const withEvidence = functionsWithEvidence(zones, statements, apart);
  const groups = headEndGroups(functions.length, modes, withEvidence);
  const before = { plan, headEnd: groups, trees, zones, statements, rates, years, expected, looks };
  const headEnd = headEndOf(before, options, readings.length > 0);
  const sizes = cuts.map(({ space }) => tableSize(space.count));
  const beyond = identitiesBeyond(trees, flags, headEnd.count, sizes);
  if (beyond.length > 0) {
    const site = siteModel(withoutIdentities(request, beyond), errors, expected, options);
    return { ...site, identitiesDropped: [...beyond, ...site.identitiesDropped].sort(compareIds) };
  }
  const plans = trees.map((tree, t) => planContexts(tree, t, flags, headEnd.count));
  checkContexts(plans, sizes);
  const trunks = trees.flatMap((tree, t) => {
    if (redrawn && redrawn.trunk !== tree.id) return [];
    return trunkModel(tree, at[t]!, plans[t]!, flags, {
      ...{ system, rates, years, headEnd, looks },
      zone: zones.of[t]!,
      cuts: cuts[t]!,
      expected: expected?.trunks.find((trunk) => trunk.id === tree.id),
      readings: trunkReadings(system, request, tree),
    });
  });
  checkLabels(trunks);
  const logSeen = looks.logLargest;
  const falseAlarmRatio = falseAlarmRatioOf(request);
  return { system, rates, logSeen, headEnd, falseAlarmRatio, flags, identitiesDropped: [], trunks };
}

/** A trunk that is not drawn otherwise. */
function asBefore(redrawn: ModelOptions['redrawn'], trunk: string): TrunkTree | undefined {
  if (!redrawn || redrawn.trunk === trunk) return undefined;
  return redrawn.site.trunks.find(({ tree }) => tree.id === trunk)?.tree;
}

/** @throws InvalidLocateRequest when readings and informants together make more tables than the stated limit */
function checkLabels(trunks: readonly TrunkModel[]): void {
  const tables = trunks.reduce(
    (sum, { plan, labels, space }) =>
      plan.spanFlags.reduce(
        (count, flags, n) =>
          count +
          tableSize(space.count) *
            contextCount(plan.groups, flags) *
            (labels?.spans[n]?.labels ?? 1),
        sum,
      ),
    0,
  );
  if (tables > MAX_TABLES) throw tooManyReadings();
}

function definedOnly(rates: Partial<RateTables> = {}): Partial<RateTables> {
  return Object.fromEntries(Object.entries(rates).filter(([, table]) => table !== undefined));
}

/** The head-end's mode and the informants whom trunks share, conditioned on jointly over all trunks. */
export interface SiteMasses {
  /** Natural logarithm of P(evidence), but for SiteModel.logSeen. */
  readonly logEvidence: number;
  /** Posterior of each head-end group. */
  readonly groups: Float64Array;
  /** For each trunk what sweepDown wants: by its contexts, log of (the rest of the site / the whole evidence). */
  readonly logWeights: readonly Float64Array[];
}

/** Adds up the trunks' evidence, each by its own contexts (PortTables.logEvidence). */
export function joinTrunks(site: SiteModel, logEvidence: readonly Float64Array[]): SiteMasses {
  const { headEnd, flags, trunks } = site;
  const open = [...new Set(trunks.flatMap((trunk) => trunk.plan.siteFlags))].sort((a, b) => a - b);
  const contexts = contextCount(headEnd.count, open);
  const closing = closingChances(headEnd.count, open, [], flags);
  const maps = trunks.map((trunk) => contextMap(headEnd.count, open, trunk.plan.siteFlags));
  const logWeights = logEvidence.map((table) => zeroTable(table.length).fill(-Infinity));
  const groups = zeroTable(headEnd.count).fill(-Infinity);
  let total = -Infinity;
  for (let context = 0; context < contexts; context++) {
    const group = context % headEnd.count;
    const prior = ln(headEnd.chance[group]! * closing[context]!);
    const own = logEvidence.map((table, t) => table[maps[t]![context]!]!);
    // Sums of all trunks before and of all after each one: the rest without a subtraction.
    const before = [prior];
    for (const log of own) before.push(before.at(-1)! + log);
    let after = 0;
    for (let t = trunks.length - 1; t >= 0; t--) {
      const to = maps[t]![context]!;
      logWeights[t]![to] = logAdd(logWeights[t]![to]!, before[t]! + after);
      after += own[t]!;
    }
    const whole = before.at(-1)!;
    groups[group] = logAdd(groups[group]!, whole);
    total = logAdd(total, whole);
  }
  for (const weights of logWeights) weights.forEach((log, x) => (weights[x] = log - total));
  return {
    logEvidence: total,
    groups: groups.map((log) => exp(log - total)),
    logWeights,
  };
}
