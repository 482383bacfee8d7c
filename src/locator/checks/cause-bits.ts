import { pointsOf } from '../causes/point.js';
import type { Trouble } from '../causes/trouble-answer.js';
import { troublesOf } from '../causes/troubles.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import { weighEvidence, weighOutcome } from '../posterior/weigh-evidence.js';
import { sortLargestFirst } from '../posterior/order.js';
import type { ErrorRates, InformantKind } from '../../plan/error-rates.js';
import type { FunctionSet } from '../../plan/functions.js';
import type { HeadEndModeName, HeadEndSetting } from '../../plan/modes.js';
import { settingsAmong } from '../../plan/plan-tables.js';
import { InvalidLocateRequest } from '../request/errors.js';
import type { LocateRequest } from '../request/locate-request.js';
import { hasPoints, quietSite } from '../sweep/quiet-site.js';
import { type SiteModel, siteModel } from '../sweep/site.js';
import { causesByName, entropy, firstOfGroups, meanDistance } from './cause-groups.js';
import { type CheckAction } from './check-action.js';
import { evenlySplit } from './evenly-split.js';
import { LIKELY } from './likely-setting.js';
import { planOf } from '../request/plan-of.js';
import { type ChecksRequest, triedOver } from './checks-request.js';
import { ownBits } from './own-bits.js';
import { type Posed, posedOutcomes } from './posed-outcomes.js';

/** States of a point, what a trunk disconnected at two places has: one of more states takes as much more time. */
const STATES_OF_A_TRY = 220;
/** A node with more states than this, of the head-end and of who may be confused, counts as several. */
const STATES_OF_A_NODE = 8;

/** A site, and its quiet worlds; null where nothing was complained of. */
interface Plain {
  readonly site: SiteModel;
  readonly quiet: SiteModel | null;
}

/** What the evidence says of the causes, and its logarithm. */
interface Weighed {
  readonly log: number;
  readonly troubles: Trouble[];
}

/** What checks would tell about the causes of what is missed (fault model, section 5, "Checks"). */
export class CauseBits {
  private readonly before: readonly { at: number; causes: ReadonlyMap<string, number> }[];
  private readonly troubles: readonly Trouble[];
  private readonly own: ((action: CheckAction) => number | null) | null;
  private readonly errors: ErrorRates;
  private split?: (action: CheckAction) => number;
  /** Before any check is made; what outcomes are told of it must not need functions kept apart that it has together. */
  private readonly plain: Plain;
  private readonly states: number;
  /** Of all causes together, in bits: no check tells more. */
  readonly most: number;
  /** Those of a trunk that was disconnected count as several. */
  private readonly nodes: number;

  constructor(
    private readonly asked: ChecksRequest,
    private readonly kind: InformantKind,
  ) {
    this.errors = asked.errors ?? planOf(asked.request).plan.errors;
    this.plain = withQuiet(this.model(asked.request, planOf(asked.request).allFunctions));
    const { site } = this.plain;
    const points = pointsOf(asked.request, site);
    const weighed = weighEvidence(site, points);
    const troubles = weighed
      ? troublesOf(weighed.swept, points, weighed.quietness.mixing).troubles
      : [];
    this.troubles = troubles;
    this.states = (weighed?.swept.trunks ?? []).reduce(
      (sum, { slots }) => slots.reduce((all, { contexts }) => all + contexts, sum),
      0,
    );
    this.own = weighed && ownBits(weighed, this.errors[kind], kind);
    this.before = firstOfGroups(troubles).map((at) => {
      const trouble = troubles[at];
      return { at, causes: trouble ? causesByName(trouble) : new Map<string, number>() };
    });
    this.nodes = site.trunks.reduce(
      (sum, { tree, space }) => sum + tree.count * Math.ceil(space.count / STATES_OF_A_TRY),
      0,
    );
    this.most = this.before.reduce((sum, { causes }) => sum + entropy(causes), 0);
  }

  /** Checks whose outcomes may be tried: the fewer, the more nodes and the more states of each there are. */
  get mostTried(): number {
    return triedOver(this.nodes);
  }

  /** Nodes, by what one sweep costs. */
  get sweptNodes(): number {
    return Math.max(this.nodes, this.states / STATES_OF_A_NODE);
  }

  get groups(): number {
    return this.before.length;
  }

  /** How evenly it parts the suspicion of the first trouble. */
  evenness(action: CheckAction): number {
    const [first] = this.troubles;
    if (!first) return 0;
    this.split ??= evenlySplit(this.asked.request, first);
    return this.split(action);
  }

  /** What a check tells of what it looks at: no more of any cause. Null where that is not known beforehand. */
  ownBits(action: CheckAction): number | null {
    return this.own?.(action) ?? null;
  }

  /** Null where its outcomes cannot be weighed: with what is known already they would be too much. */
  of(action: CheckAction): number | null {
    try {
      const firsts = this.before.map(({ at }) => at);
      const { request } = this.asked;
      const weighed = posedOutcomes(request, action, this.kind, this.errors[this.kind]).flatMap(
        (posed) => this.weigh(posed, firsts) ?? [],
      );
      const log = logSumExp(weighed.map((one) => one.log));
      return this.before.reduce((sum, { causes }, group) => {
        const after = weighed.flatMap((one) => {
          const trouble = one.troubles[group];
          return trouble
            ? [{ chance: Math.exp(one.log - log), causes: causesByName(trouble) }]
            : [];
        });
        return sum + meanDistance(causes, after);
      }, 0);
    } catch (error) {
      if (error instanceof InvalidLocateRequest) return null;
      throw error;
    }
  }

  /** A setting of the head-end that is the cause of some trouble more likely than all others; null where none is. */
  likelySetting(): HeadEndSetting | null {
    const causes = this.troubles.flatMap((trouble) => trouble.causes);
    const [most] = sortLargestFirst(
      causes.filter(({ probability }) => probability >= LIKELY),
      ({ probability }) => probability,
      () => 0,
    );
    if (most?.cause.kind !== 'head-end') return null;
    const { mode } = most.cause;
    return (
      settingsAmong(planOf(this.asked.request), [mode as HeadEndModeName]).find(
        (one) => one === mode,
      ) ?? null
    );
  }

  private model(request: LocateRequest, apart: FunctionSet): SiteModel {
    const { expected } = this.asked;
    return siteModel(request, this.errors, expected, { apart, onlyInQuestion: true });
  }

  /** Troubles of the points at these places alone: each point's causes cost a sweep of their own. */
  private weigh({ request, given }: Posed, only: readonly number[]): Weighed | null {
    // An outcome that is told as evidence keeps the functions apart that it must; what is given beside it does not.
    const plain = given ? this.plain : withQuiet(this.model(request, 0));
    const site = given?.(plain.site) ?? plain.site;
    const quiet = plain.quiet && (given?.(plain.quiet) ?? plain.quiet);
    const points = pointsOf(request, site);
    const asked = only.flatMap((at) => points[at] ?? []);
    const weighed = weighOutcome(site, quiet, asked);
    if (!weighed) return null;
    const { swept, quietness } = weighed;
    return {
      log: swept.masses.logEvidence + site.logSeen + quietness.logFactor,
      troubles: troublesOf(swept, asked, quietness.mixing).troubles,
    };
  }
}

function withQuiet(site: SiteModel): Plain {
  return { site, quiet: hasPoints(site) ? quietSite(site) : null };
}
