import { exp } from '../../elementary/exp.js';
import { massesPerComponent, massesPerSpan } from '../sweep/descend-span.js';
import { DEAD_FEED, type FeedClasses } from '../sweep/feed-classes.js';
import { liveContexts } from '../sweep/live-contexts.js';
import { joinTrunks, type SiteModel } from '../sweep/site.js';
import { sweepDown, sweepUp } from '../sweep/sweep-trunk.js';
import type { TrunkModel } from '../sweep/trunk-model.js';

/** A chance from everything but the volts of its trunk, and with them as the sweep weighs them. */
export interface JointChance {
  readonly before: number;
  readonly swept: number;
}

/** Chances that the supply is weak at just those readings which a bad joint in one span makes weak, and it is there. */
export interface JointPrior extends JointChance {
  readonly node: number;
  /** Shares of its junction-out, cable and junction-in. */
  readonly shares: readonly number[];
}

/** Log 1 where the feed is full or weak as wanted, log 0 elsewhere. */
function onlyFeeds({ count, weak }: FeedClasses, isWeak: boolean): Float64Array {
  return Float64Array.from({ length: count }, (_, feed) =>
    feed !== DEAD_FEED && (weak[feed] === 1) === isWeak ? 0 : -Infinity,
  );
}

/**
 * How likely each span is to have the bad joint that the readings of a trunk could see. For each set of readings that
 * one joint makes weak, the exact chance of just that, by a sweep with the feed given there; inside a set, its spans
 * share it by their chances given that, so that two bad joints before the same readings count as one or the other.
 */
export class JointPriors {
  private readonly readAt: readonly number[];
  private readonly evidence: Float64Array[];
  private readonly logBefore: number;
  private readonly fullOnly: Float64Array;
  private readonly weakOnly: Float64Array;

  constructor(
    private readonly site: SiteModel,
    private readonly t: number,
    logEvidence: readonly Float64Array[],
    private readonly model: TrunkModel,
    private readonly logSwept: number,
  ) {
    this.readAt = model.tree.nodeIds.flatMap((_, n) => (model.readings?.volts[n] ? [n] : []));
    this.evidence = [...logEvidence];
    this.fullOnly = onlyFeeds(model.system.feedClasses, false);
    this.weakOnly = onlyFeeds(model.system.feedClasses, true);
    this.logBefore = this.join(() => null).logEvidence;
  }

  /** The supply arrives in full wherever it was read. */
  noJoint(): JointChance {
    return this.chanceOf(this.join(() => this.fullOnly).logEvidence, new Set());
  }

  spans(): JointPrior[] {
    const sets = new Map<string, { below: Set<number>; nodes: number[] }>();
    this.readingsBelow().forEach((below, node) => {
      if (below.size === 0) return;
      const key = [...below].join();
      const set = sets.get(key) ?? { below, nodes: [] };
      set.nodes.push(node);
      sets.set(key, set);
    });
    return [...sets.values()].flatMap(({ below, nodes }) => this.ofSet(below, nodes));
  }

  private ofSet(below: ReadonlySet<number>, nodes: readonly number[]): JointPrior[] {
    const joined = this.join((n) => (below.has(n) ? this.weakOnly : this.fullOnly));
    if (joined.logEvidence === -Infinity) return [];
    const { effects } = this.model;
    const joint = effects.does.findIndex(({ weakens }) => weakens);
    const live = liveContexts(joined.groups);
    const logWeights = joined.logWeights[this.t] ?? new Float64Array();
    const masses = sweepDown(joined.sweep, logWeights, live);
    const chances = nodes.map((node) =>
      [0, 1, 2].map((part) => {
        const at = node * massesPerSpan(effects) + part * massesPerComponent(effects);
        return joint < 0 ? 0 : (masses.spans[at + joint] ?? 0);
      }),
    );
    const sums = chances.map((parts) => parts.reduce((sum, chance) => sum + chance, 0));
    const total = sums.reduce((sum, chance) => sum + chance, 0);
    const { before, swept } = this.chanceOf(joined.logEvidence, below);
    return nodes.flatMap((node, i) => {
      const own = sums[i] ?? 0;
      const shares = (chances[i] ?? []).map((chance) => chance / own);
      const share = own / total;
      return own > 0 ? [{ node, before: before * share, swept: swept * share, shares }] : [];
    });
  }

  private chanceOf(logEvidence: number, weak: ReadonlySet<number>): JointChance {
    const { full, weak: isWeak } = this.model.system.feedClasses;
    // The volts of all weak feeds are alike.
    const weakFeed = isWeak.lastIndexOf(1);
    const logVolts = this.readAt.reduce((sum, n) => {
      const volts = this.model.readings?.volts[n];
      return sum + (volts?.[weak.has(n) ? weakFeed : full] ?? 0);
    }, 0);
    return {
      before: exp(logEvidence - this.logBefore),
      swept: exp(logEvidence + logVolts - this.logSwept),
    };
  }

  /** The site with this trunk's volts replaced by what is given of the feed where they were read. */
  private join(given: (node: number) => Float64Array | null) {
    const volts = this.model.tree.nodeIds.map((_, n) =>
      this.readAt.includes(n) ? given(n) : null,
    );
    const readings = this.model.readings && { ...this.model.readings, volts };
    const sweep = sweepUp({ ...this.model, readings });
    const evidence = this.evidence.with(this.t, sweep.port.logEvidence);
    return { sweep, ...joinTrunks(this.site, evidence) };
  }

  private readingsBelow(): Set<number>[] {
    const { count, parent } = this.model.tree;
    const below = Array.from({ length: count }, () => new Set<number>());
    for (const read of this.readAt)
      for (let n = read; n >= 0; n = parent[n] ?? -1) below[n]?.add(read);
    return below;
  }
}
