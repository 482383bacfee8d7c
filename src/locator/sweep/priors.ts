import type { NodeExpectation, TrunkExpectation } from '../../plan/expected-faults.js';
import { modeChances } from '../../plan/mode-chances.js';
import type { RateTables } from '../../plan/rates.js';
import type { EffectClasses } from './effect-classes.js';
import { type Looks, type Seen, seenChances, seenWeights } from './looks.js';
import { type SpanChances, spanChances } from './span-chances.js';
import { type StationChances, stationChances } from './station-classes.js';
import type { System } from './system.js';
import type { TrunkTree } from './trunk-tree.js';

export type NodeWeights = Omit<NodeExpectation, 'id'>;

/** With what one more look sees, as lookFactors gives it. */
function seenAlso(seen: Seen | null, more: Float64Array | null): Seen | null {
  if (!seen || !more) return more ? { factors: more } : seen;
  return { factors: seen.factors.map((factor, m) => factor * (more[m] ?? 0)) };
}

/** Remembers by one key: most nodes share an exposure, most unmentioned stations share their evidence. */
function remembered<K, V>(make: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = make(key);
    known.set(key, made);
    return made;
  };
}

/** Tables whose exposure (and metres) are in them already: what spanChances and stationChances multiply them by. */
const AS_EXPECTED = 1;

const SPAN_PARTS = {
  junctionOut: 'junction-out',
  cable: 'cable',
  junctionIn: 'junction-in',
} as const;
export type PriorPart = keyof typeof SPAN_PARTS;

/** The prior of each component of a trunk, with what was seen of it, and what its modes are weighed by. */
export class Priors {
  private readonly own: ReadonlyMap<string, NodeExpectation>;
  private readonly junctionOf: (years: number) => SpanChances;
  private readonly cablesOf: (years: number) => (metres: number) => SpanChances;
  private readonly stationOf: (years: number) => StationChances;
  private readonly byRates: NodeWeights;

  constructor(
    private readonly system: System,
    private readonly tree: TrunkTree,
    private readonly rates: RateTables,
    private readonly effects: EffectClasses,
    private readonly looks: Looks,
    private readonly expected: TrunkExpectation | undefined,
  ) {
    const { spanModes } = system.plan;
    this.own = new Map(expected?.nodes.map((node) => [node.id, node]));
    this.junctionOf = remembered((t) => spanChances(spanModes, rates.junction, 1, t, effects));
    // Cables of one length and exposure share their chances, and with these what is made of them.
    this.cablesOf = remembered((t: number) =>
      remembered((metres: number) =>
        spanChances(spanModes, rates.cablePerMetre, metres, t, effects),
      ),
    );
    this.stationOf = remembered((t) => stationChances(system, rates.station, t));
    this.byRates = {
      junctionOut: rates.junction,
      cable: rates.cablePerMetre,
      junctionIn: rates.junction,
      station: rates.station,
    };
  }

  /** Before anything was seen. */
  private table(n: number): NodeWeights {
    return this.own.get(this.tree.nodeIds[n] ?? '') ?? this.byRates;
  }

  private seen(n: number, part: PriorPart | 'station') {
    const { id: trunk, nodeIds } = this.tree;
    const node = nodeIds[n] ?? '';
    return part === 'station'
      ? this.looks.seen({ kind: 'station', trunk, node }, 'station', this.system.plan.stationModes)
      : this.looks.seen(
          { kind: 'span', trunk, from: null, to: node },
          SPAN_PARTS[part],
          this.system.plan.spanModes,
        );
  }

  /** @param more what one more look sees of it */
  span(n: number, part: PriorPart, more: Float64Array | null = null): SpanChances {
    const isOwn = this.own.has(this.tree.nodeIds[n] ?? '');
    const years = isOwn ? AS_EXPECTED : (this.tree.years[n] ?? 0);
    const metres = part === 'cable' && !isOwn ? (this.tree.cableMetres[n] ?? 0) : 1;
    const seen = seenAlso(this.seen(n, part), more);
    if (isOwn || seen)
      return spanChances(
        this.system.plan.spanModes,
        this.table(n)[part],
        metres,
        years,
        this.effects,
        seen,
      );
    return part === 'cable' ? this.cablesOf(years)(metres) : this.junctionOf(years);
  }

  station(n: number, more: Float64Array | null = null): StationChances | null {
    if (!this.tree.isStation[n]) return null;
    const isOwn = this.own.has(this.tree.nodeIds[n] ?? '');
    const years = isOwn ? AS_EXPECTED : (this.tree.years[n] ?? 0);
    const seen = seenAlso(this.seen(n, 'station'), more);
    return isOwn || seen
      ? stationChances(this.system, this.table(n).station, years, seen)
      : this.stationOf(years);
  }

  /** P(faulty) of a component before anybody looked at it; null where nobody did, and its prior is that. */
  beforeLooks(n: number, part: PriorPart | 'station'): number | null {
    if (!this.seen(n, part)) return null;
    const isOwn = this.own.has(this.tree.nodeIds[n] ?? '');
    const years = isOwn ? AS_EXPECTED : (this.tree.years[n] ?? 0);
    const metres = part === 'cable' && !isOwn ? (this.tree.cableMetres[n] ?? 0) : 1;
    const rates = Object.values<number>(this.table(n)[part]).map((rate) => rate * metres);
    return 1 - modeChances(rates, years).ok;
  }

  weights(n: number): NodeWeights {
    const { spanModes, stationModes } = this.system.plan;
    let table = this.table(n);
    for (const part of ['junctionOut', 'cable', 'junctionIn'] as const) {
      const seen = this.seen(n, part);
      if (seen) table = { ...table, [part]: seenWeights(table[part], spanModes, seen) };
    }
    const seen = this.seen(n, 'station');
    return seen && this.tree.isStation[n]
      ? { ...table, station: seenWeights(table.station, stationModes, seen) }
      : table;
  }

  /** @param years since the port was last proven good */
  port(years: number): { ok: number; modes: Float64Array; weights: RateTables['port'] } {
    const { portModes } = this.system.plan;
    const weights = this.expected?.port ?? this.rates.port;
    const chances = seenChances(
      portModes.map((mode) => weights[mode] ?? 0),
      this.expected ? AS_EXPECTED : years,
      this.looks.seen({ kind: 'port', trunk: this.tree.id }, 'port', portModes),
    );
    return { ...chances, weights };
  }
}
