/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SpanMode } from '../../plan/modes.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import type { SpanChances } from '../sweep/span-chances.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { StationChances } from '../sweep/station-classes.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { bits, SHORT_STATION } from './run-effects.js';
import { componentActs } from './series-acts.js';
import { zeroTable } from '../numbers/zero-table.js';

/** One component in series: the chance that it does nothing, and its other effects with their chances. */
export interface SeriesPart {
  readonly ok: number;
  readonly effects: readonly number[];
  /** Positions of their modes among the plan's; of a station -1. */
  readonly modes: readonly number[];
  readonly chances: readonly number[];
  /** Their sum. */
  readonly faulty: number;
  /** The same chances as componentActs gives them. */
  readonly acts: Float64Array;
}

function part(
  ok: number,
  list: readonly (readonly [effect: number, chance: number, mode: number])[],
): SeriesPart {
  const possible = list.filter(([, chance]) => chance > 0);
  const effects = possible.map(([effect]) => effect);
  const chances = possible.map(([, chance]) => chance);
  const modes = possible.map(([, , mode]) => mode);
  const faulty = chances.reduce((sum, chance) => sum + chance, 0);
  return { ok, effects, modes, chances, faulty, acts: componentActs(ok, effects, chances) };
}

/** A junction or cable: the classes that the sweeps merge are divided by what their modes are weighed by. */
function spanPart(
  { spanModes, spanEffects }: PlanTables,
  { ok, effects }: SpanChances,
  weights: Readonly<Partial<Record<SpanMode, number>>>,
  { count, ofMode }: EffectClasses,
): SeriesPart {
  const totals = zeroTable(count);
  spanModes.forEach((mode, m) => (totals[ofMode[m]!]! += weights[mode] ?? 0));
  return part(
    ok,
    spanModes.map((mode, m) => {
      const weight = weights[mode] ?? 0;
      const of = ofMode[m]!;
      const chance = weight > 0 ? effects[of]! * (weight / totals[of]!) : 0;
      return [bits(spanEffects[mode]), chance, m] as const;
    }),
  );
}

const SPAN_PARTS_DOWN = ['junctionOut', 'cable', 'junctionIn'] as const;

/** The series parts of a trunk's components; those with one prior share one. */
export class ComponentPriors {
  private readonly spans = new Map<SpanChances, SeriesPart>();
  private readonly stations = new Map<StationChances, SeriesPart>();
  constructor(readonly model: TrunkModel) {}

  /** Junction-out, cable and junction-in of the span into a node. */
  span(n: number): readonly [SeriesPart, SeriesPart, SeriesPart] {
    const { junctionOut, cable, junctionIn, weights } = this.model;
    return [
      this.ofSpan(junctionOut[n]!, weights[n]!.junctionOut),
      this.ofSpan(cable[n]!, weights[n]!.cable),
      this.ofSpan(junctionIn[n]!, weights[n]!.junctionIn),
    ];
  }

  /** A station that nothing is known of: only its short matters to what travels on the trunk. Null at a junction box. */
  station(n: number): SeriesPart | null {
    const station = this.model.station[n];
    if (!station) return null;
    const made =
      this.stations.get(station) ??
      part(
        station.classes.reduce((sum, chance) => sum + chance, 0),
        [[SHORT_STATION, station.short, -1]],
      );
    this.stations.set(station, made);
    return made;
  }

  /** P(a fault of the station that changes nothing on the trunk). */
  otherFaults(n: number): number {
    const { classes } = this.model.station[n]!;
    return classes.reduce((sum, chance, k) => (k === 0 ? sum : sum + chance), 0);
  }

  /** P(at least one component of the span into a node is faulty) before anything was known. */
  spanBefore(n: number): number {
    return faultyChance(
      this.span(n).map((part, p) => {
        const faulty = this.model.priors.beforeLooks(n, SPAN_PARTS_DOWN[p] ?? 'cable');
        return faulty === null ? part : { ok: 1 - faulty, faulty };
      }),
    );
  }

  /** P(a station is faulty) before anything was known. */
  stationBefore(n: number): number {
    const { classes, short } = this.model.station[n]!;
    const own = classes.reduce((sum, chance, k) => (k === 0 ? sum : sum + chance), short);
    return this.model.priors.beforeLooks(n, 'station') ?? own;
  }

  private ofSpan(
    chances: SpanChances,
    weights: Readonly<Partial<Record<SpanMode, number>>>,
  ): SeriesPart {
    const made =
      this.spans.get(chances) ??
      spanPart(this.model.system.plan, chances, weights, this.model.effects);
    this.spans.set(chances, made);
    return made;
  }
}

/** The chance that at least one of several in series is faulty, as a sum of disjoint cases. */
function faultyChance(parts: readonly Pick<SeriesPart, 'ok' | 'faulty'>[]): number {
  let good = 1;
  let sum = 0;
  for (const { ok, faulty } of parts) {
    sum += good * faulty;
    good *= ok;
  }
  return sum;
}
