import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import { quietness } from '../posterior/quietness.js';
import { joinTrunks, type SiteMasses, type SiteModel } from '../sweep/site.js';

/** By context of one trunk, log P(what was told of it | context), under one drawing of it. */
export type TrunkEvidence = Float64Array;

/** One way in which one trunk may be laid. */
export interface Weighed {
  readonly prior: number;
  readonly evidence: TrunkEvidence;
  /** The same with all well that was complained of; null where nothing was. */
  readonly quiet: TrunkEvidence | null;
}

/** By trunk, every way in which it may be laid, the drawing as sent first. */
export type DrawingsByTrunk = readonly (readonly Weighed[])[];

type EvidenceOf = (drawing: Weighed) => TrunkEvidence;

/** log of the prior mixture of a trunk's drawings, by context. */
function mixture(drawings: readonly Weighed[], evidenceOf: EvidenceOf): TrunkEvidence {
  const terms = drawings.map((one) => ({ log: ln(one.prior), evidence: evidenceOf(one) }));
  const contexts = terms[0]?.evidence.length ?? 0;
  return Float64Array.from({ length: contexts }, (_, context) =>
    logSumExp(
      Float64Array.from(terms, ({ log, evidence }) => log + (evidence[context] ?? -Infinity)),
    ),
  );
}

/** Share of a site's evidence under one drawing of a trunk; `logRest` is by context, as joinTrunks gives it. */
function share(prior: number, evidence: TrunkEvidence, logRest: Float64Array): number {
  let sum = 0;
  evidence.forEach((log, context) => {
    sum += prior * exp(log + (logRest[context] ?? -Infinity));
  });
  return sum;
}

/** How the evidence of a site is shared among the ways in which it may be drawn. */
export interface DrawingShares {
  /** Of the drawing as sent, on all trunks at once. */
  readonly asDrawn: number;
  /** By trunk, as in DrawingsByTrunk. */
  readonly byTrunk: readonly (readonly number[])[];
}

function sharesOf(site: SiteModel, drawings: DrawingsByTrunk, evidenceOf: EvidenceOf) {
  const whole: SiteMasses = joinTrunks(
    site,
    drawings.map((trunk) => mixture(trunk, evidenceOf)),
  );
  const sent = joinTrunks(
    site,
    drawings.map((trunk) => mixture(trunk.slice(0, 1), evidenceOf)),
  );
  return {
    logEvidence: whole.logEvidence,
    asDrawn: exp(sent.logEvidence - whole.logEvidence),
    byTrunk: drawings.map((trunk, t) =>
      trunk.map((one) =>
        share(one.prior, evidenceOf(one), whole.logWeights[t] ?? new Float64Array()),
      ),
    ),
  };
}

/**
 * Exact whatever trunks share: the head-end and informants are conditioned on, and each trunk is a mixture given them.
 *
 * @param quiet the site with all well that was complained of; null where nothing was, or where that cannot be
 */
export function shareDrawings(
  site: SiteModel,
  quiet: SiteModel | null,
  drawings: DrawingsByTrunk,
): DrawingShares {
  const all = sharesOf(site, drawings, ({ evidence }) => evidence);
  if (!quiet) return all;
  const well = sharesOf(quiet, drawings, (one) => one.quiet ?? new Float64Array());
  if (well.logEvidence === -Infinity) return all;
  const { mix } = quietness(well.logEvidence, all.logEvidence, site.falseAlarmRatio);
  return {
    asDrawn: mix(all.asDrawn, well.asDrawn),
    byTrunk: all.byTrunk.map((shares, t) =>
      shares.map((own, k) => mix(own, well.byTrunk[t]?.[k] ?? 0)),
    ),
  };
}
