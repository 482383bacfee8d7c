/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { NEGLIGIBLE } from '../sweep/live-contexts.js';
import { hasPoints } from '../sweep/quiet-site.js';
import type { Chosen } from './chosen.js';
import { logMassOf } from './context-weights.js';
import type { InformativeNode } from './informative-nodes.js';
import { casesOf, type LabelledSite } from './local-cases.js';
import type { NodeState } from './node-state.js';

/** The quiet worlds of an explanation: those in which all is well that was complained of (fault model, section 4). */
export interface QuietWorlds {
  /** The same states, with what stations may have then. */
  readonly chosen: Chosen;
  /** Their share of the explanation's mass before κ. */
  readonly share: number;
}

/** What κ takes of explanations. */
export class QuietPart {
  /** Informative nodes of which something was complained. */
  private readonly complained: readonly number[];
  private readonly isPlain: boolean;
  private readonly known = new Map<NodeState, NodeState>();

  constructor(
    private readonly site: LabelledSite,
    private readonly informativeNodes: readonly InformativeNode[],
  ) {
    this.complained = [...informativeNodes.keys()].filter((h) => {
      const { kind, trunk, node } = informativeNodes[h]!;
      return kind === 'node' && site.trunks[trunk]!.points[node]! > 0;
    });
    this.isPlain = informativeNodes.every(({ outerOf }) => outerOf.length === 1);
  }

  /** How much of a quiet world's weight κ takes. */
  get taken(): number {
    return hasPoints(this.site) ? 1 - this.site.falseAlarmRatio : 0;
  }

  /** Null where it has none that changes a digit, or κ takes nothing. */
  of(chosen: Chosen): QuietWorlds | null {
    if (this.taken === 0) return null;
    const states = chosen.states.slice();
    for (const h of this.complained) {
      const state = this.quietly(h, chosen.graph.group, states[h]!);
      if (state.cases.local.every((chance) => chance === 0)) return null;
      states[h] = state;
    }
    const quiet = { ...chosen, states };
    const only = this.isPlain ? this.complained : undefined;
    const log =
      logMassOf(this.informativeNodes, quiet, only) -
      logMassOf(this.informativeNodes, chosen, only);
    const share = Math.min(1, exp(log));
    return share > NEGLIGIBLE ? { chosen: quiet, share } : null;
  }

  /** What is left of an explanation's mass. */
  leftOf(chosen: Chosen): number {
    const share = this.of(chosen)?.share ?? 0;
    return (1 - this.taken) * share + (1 - share);
  }

  private quietly(h: number, group: number, state: NodeState): NodeState {
    const known = this.known.get(state);
    if (known) return known;
    const cases = casesOf(this.site, this.informativeNodes[h]!, group, state.state, {
      onlyQuiet: true,
    });
    const made = { ...state, cases };
    this.known.set(state, made);
    return made;
  }
}
