/* eslint-disable @typescript-eslint/no-non-null-assertion -- tables of one site: every index is in range by construction,
   and a fallback value at each read would hide a wrong one */
import { type InformantErrors, type InformantKind } from '../../plan/error-rates.js';
import { SPAN_PARTS } from '../../plan/look-errors.js';

import { channelBits, informationBits } from '../posterior/information.js';
import { modeSplit } from '../posterior/mode-split.js';
import { mixPosteriors, type Posterior, posteriorOf } from '../posterior/posterior.js';
import type { WeighedEvidence } from '../posterior/weigh-evidence.js';
import { massesPerComponent, massesPerSpan } from '../sweep/descend-span.js';
import type { CheckAction } from './check-action.js';
import { CONTINUITY_ROWS, lookRows, VOLTS_ROWS } from './check-outcomes.js';
import { type ConditionChances, supplyChances } from './condition-chances.js';
import { spanMass, spansTo } from './spans-in-question.js';
import { stationStates } from './station-states.js';

/**
 * At least I(outcome; what is looked at), with quiet worlds weighing less: no check tells more of any cause. Null where that
 * is not known before it is tried.
 */
export class OwnBits {
  private readonly posterior: Posterior;
  private readonly places: ReadonlyMap<string, { t: number; at: ReadonlyMap<string, number> }>;

  constructor(private readonly weighed: WeighedEvidence) {
    const { swept, quiet, quietness } = weighed;
    const whole = posteriorOf(swept);
    this.posterior = quiet ? mixPosteriors(quietness, whole, posteriorOf(quiet)) : whole;
    this.places = new Map(
      swept.site.trunks.map(({ tree }, t) => [
        tree.id,
        { t, at: new Map(tree.nodeIds.map((id, n) => [id, n])) },
      ]),
    );
  }

  of(action: CheckAction, errors: InformantErrors, kind: InformantKind): number | null {
    const { site } = this.weighed.swept;
    // Of a look by the least that is missed: it tells less where more is.
    const rows = lookRows(site.system.plan.plan, kind, errors);
    const look = (faulty: number) => channelBits([1 - faulty, faulty], rows);
    if (action.kind === 'head-end') {
      const mode = site.headEnd.modes.indexOf(action.setting);
      return look(this.posterior.headEnd[mode + 1] ?? 0);
    }
    const { t, at } = this.places.get(action.trunk)!;
    switch (action.kind) {
      case 'function': {
        const func = site.system.plan.functions.indexOf(action.function);
        return informationBits(...this.conditions(t, at.get(action.node)!, func), errors);
      }
      case 'volume-knob':
        return look(this.volumeDown(t, at.get(action.node)!));
      case 'open-junction':
        return look(this.faulty(t, at.get(action.to)!, SPAN_PARTS.indexOf(action.component)));
      case 'supply-volts':
        return channelBits(this.supply(t, at.get(action.node)!), VOLTS_ROWS);
      case 'continuity': {
        const open = this.nearestToEven(t, at.get(action.from ?? '') ?? -1, at.get(action.to)!);
        return channelBits([1 - open, open], CONTINUITY_ROWS);
      }
      case 'isolation':
        return null;
    }
  }

  private conditions(t: number, n: number, func: number): ConditionChances {
    const conditions = this.posterior.stations[t]![n]?.conditions;
    const [good = 0, weak = 0, dead = 0] = conditions?.subarray(func * 3, func * 3 + 3) ?? [];
    return [good, weak, dead];
  }

  private faulty(t: number, n: number, part: number): number {
    const { effects } = this.weighed.swept.site.trunks[t]!;
    const ok = n * massesPerSpan(effects) + (part + 1) * massesPerComponent(effects) - 1;
    return 1 - Math.min(1, this.posterior.trunks[t]!.spans[ok]!);
  }

  private volumeDown(t: number, n: number): number {
    const { system, trunks } = this.weighed.swept.site;
    const { stationModes, volumeMode } = system.plan;
    const own = trunks[t]!.weights[n]!.station;
    const { names, classes, shares } = modeSplit(own, stationModes, system.stationClasses.ofMode);
    const mode = names.indexOf(volumeMode ?? '');
    return (this.posterior.stations[t]![n]?.classes[classes[mode]!] ?? 0) * (shares[mode] ?? 0);
  }

  /** Full, weak, dead. */
  private supply(t: number, n: number): number[] {
    const { swept, quiet, quietness } = this.weighed;
    const { system } = swept.site;
    const all = supplyChances(system, stationStates(swept, t, n)!);
    if (!quiet) return [...all];
    const ofQuiet = supplyChances(system, stationStates(quiet, t, n)!);
    return all.map((chance, truth) => quietness.mix(chance, ofQuiet[truth]!));
  }

  /** Of the chances that some component of a stretch may be open, as those of single ones have it, the nearest to 1/2. */
  private nearestToEven(t: number, from: number, to: number): number {
    const { tree, effects } = this.weighed.swept.site.trunks[t]!;
    const { spans } = this.posterior.trunks[t]!;
    const above = spansTo(tree, from).length;
    const open = spansTo(tree, to, spansTo(tree, to).length - above).map((n) =>
      spanMass(spans, effects, n, ({ removes }) => removes > 0),
    );
    const most = open.reduce((sum, chance) => sum + chance, 0);
    // Of three components of a span one at least has a third of it.
    return Math.min(1, most, Math.max(1 / 2, Math.max(...open) / 3));
  }
}
