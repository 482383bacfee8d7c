import { causesAsked, type CausesAsked, toChances } from '../causes/cause-masses.js';
import { pointsOf } from '../causes/point.js';
import type { Trouble } from '../causes/trouble-answer.js';
import { type WeighedTroubles, weighTroubles } from '../causes/weigh-troubles.js';
import { sortLargestFirst } from '../posterior/order.js';
import { weighEvidence } from '../posterior/weigh-evidence.js';
import type { ErrorRates, InformantKind } from '../../plan/error-rates.js';
import type { FunctionSet } from '../../plan/functions.js';
import type { HeadEndModeName, HeadEndSetting } from '../../plan/modes.js';
import { settingsAmong } from '../../plan/plan-tables.js';
import { InvalidLocateRequest } from '../request/errors.js';
import type { LocateRequest } from '../request/locate-request.js';
import { type SiteModel, siteModel } from '../sweep/site.js';
import { entropy, firstOfGroups, meanDistance } from './cause-groups.js';
import { type CheckAction } from './check-action.js';
import { evenlySplit } from './evenly-split.js';
import { LIKELY } from './likely-setting.js';
import { planOf } from '../request/plan-of.js';
import { type ChecksRequest, triedOver } from './checks-request.js';
import { addMasses, type OutcomeMasses, OutcomeSweeps } from './outcome-masses.js';
import { OwnBits } from './own-bits.js';
import { isToldApart, toldWhileIsolated, weighedOutcomes } from './posed-outcomes.js';

/** States of a point, what a trunk disconnected at two places has: one of more states takes as much more time. */
const STATES_OF_A_TRY = 220;
/** A node with more states than this, of the head-end and of who may be confused, counts as several. */
const STATES_OF_A_NODE = 8;

/** A group of troubles that have one cause. */
interface TroubleGroup {
  readonly asked: CausesAsked;
  readonly chances: Float64Array;
  /** Of its causes, in bits. */
  readonly entropy: number;
}

/** What checks would tell about the causes of what is missed (fault model, section 5, "Checks"), whoever makes them. */
export class CauseBits {
  private readonly known: WeighedTroubles | null;
  private readonly before: readonly TroubleGroup[];
  private readonly own: OwnBits | null;
  private readonly errors: ErrorRates;
  /** By the functions that the head-end's groups tell apart beside those that something is known of. */
  private readonly sweeps = new Map<FunctionSet, OutcomeSweeps>();
  private split?: (action: CheckAction) => number;

  /** @param asked what is `known` of it is used up */
  constructor(private readonly asked: ChecksRequest) {
    this.errors = asked.errors ?? planOf(asked.request).plan.errors;
    this.known = asked.known ?? this.weigh();
    this.own = this.known && new OwnBits(this.known.weighed);
    this.before = this.known ? this.groupsOf(this.known) : [];
  }

  private weigh(): WeighedTroubles | null {
    const site = this.model(this.asked.request, 0);
    return weighTroubles(site, pointsOf(this.asked.request, site));
  }

  private groupsOf({ points, troubles, weighed }: WeighedTroubles): TroubleGroup[] {
    const asked = firstOfGroups(troubles).flatMap((at) => {
      const [point, trouble] = [points[at], troubles[at]];
      return point && trouble ? [causesAsked(point, trouble)] : [];
    });
    if (asked.length === 0) return [];
    const sweeps = new OutcomeSweeps(weighed, asked);
    this.sweeps.set(0, sweeps);
    const { whole, causes } = sweeps.before;
    return asked.flatMap((one, group) => {
      const masses = causes[group];
      const chances = masses && toChances(masses, whole);
      return chances ? [{ asked: one, chances, entropy: entropy(chances) }] : [];
    });
  }

  private get troubles(): readonly Trouble[] {
    return this.known?.troubles ?? [];
  }

  /** Those of a trunk that was disconnected count as several. */
  private get nodes(): number {
    return (this.known?.site.trunks ?? []).reduce(
      (sum, { tree, space }) => sum + tree.count * Math.ceil(space.count / STATES_OF_A_TRY),
      0,
    );
  }

  /** Checks whose outcomes may be tried: the fewer, the more nodes and the more states of each there are. */
  get mostTried(): number {
    return triedOver(this.nodes);
  }

  /** Nodes, by what one sweep costs. */
  get sweptNodes(): number {
    const states = (this.known?.weighed.swept.trunks ?? []).reduce(
      (sum, { slots }) => slots.reduce((all, { contexts }) => all + contexts, sum),
      0,
    );
    return Math.max(this.nodes, states / STATES_OF_A_NODE);
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

  /**
   * The most that a check may tell, in bits: of each trouble no more than of what it looks at, nor than there is to tell.
   * What something tells of itself while disconnected is not known beforehand.
   */
  mostOf(action: CheckAction, kind: InformantKind): number {
    const own = this.own?.of(action, this.errors[kind], kind) ?? Infinity;
    return this.before.reduce((sum, one) => sum + Math.min(own, one.entropy), 0);
  }

  /** Null where its outcomes cannot be weighed: with what is known already they would be too much. */
  of(action: CheckAction, kind: InformantKind): number | null {
    try {
      const outcomes = this.outcomesOf(action, kind).filter(({ whole }) => whole > 0);
      const all = outcomes.reduce((sum, { whole }) => sum + whole, 0);
      return this.before.reduce((sum, { chances }, group) => {
        const after = outcomes.flatMap(({ whole, causes }) => {
          const masses = causes[group];
          return masses ? [{ chance: whole / all, causes: toChances(masses, whole) }] : [];
        });
        return sum + meanDistance(chances, after);
      }, 0);
    } catch (error) {
      if (error instanceof InvalidLocateRequest) return null;
      throw error;
    }
  }

  private outcomesOf(action: CheckAction, kind: InformantKind): OutcomeMasses[] {
    const { asked, known } = this;
    if (!known) return [];
    if (action.kind === 'isolation')
      return toldWhileIsolated(asked.request, action, kind).flatMap(
        (told) => this.sweepsWith(0).of(this.model(told, 0)) ?? [],
      );
    const weighed = weighedOutcomes(known.site, action, kind, this.errors);
    if (!weighed) return [];
    const { tried } = weighed;
    const zone = tried && (known.site.trunks[tried.t]?.zone[tried.n] ?? 0);
    const isApart = tried === null || isToldApart(known.site, zone ?? 0, tried.func);
    const sweeps = this.sweepsWith(isApart ? 0 : 1 << tried.func);
    const masses = [sweeps.before, ...weighed.sites.map((change) => sweeps.given(change))];
    return weighed.shares.map((shares) => addMasses(masses, shares));
  }

  private sweepsWith(apart: FunctionSet): OutcomeSweeps {
    const known = this.sweeps.get(apart);
    if (known) return known;
    const site = this.model(this.asked.request, apart);
    const weighed = weighEvidence(site, this.known?.points ?? []);
    if (!weighed) throw new RangeError('what is known was possible with fewer functions apart');
    const sweeps = new OutcomeSweeps(
      weighed,
      this.before.map(({ asked }) => asked),
    );
    this.sweeps.set(apart, sweeps);
    return sweeps;
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
}
