import type { Trouble } from '../causes/trouble-answer.js';

/** What to look at to tell an alternative from the drawing, and what would be seen there under each. */
export type TellApart =
  | {
      look: 'cables-at-node';
      trunk: string;
      node: string;
      /** Cables that enter or leave there. */
      asDrawn: number;
      alternative: number;
    }
  | { look: 'name-at-door'; trunk: string; nodes: [string, string] };

/** A way in which a trunk may be laid that its drawing does not show (fault model, section 10). */
export interface DrawingAlternative {
  kind: 'branch' | 'end' | 'swapped';
  trunk: string;
  /** The run that hangs from a tee at the node before it, or lies behind the last node; or the two swapped. */
  from: string;
  to: string;
  /** The widest run that the evidence cannot tell from this one; left out where there is none. */
  atMostFrom?: string;
  atMostTo?: string;
  /** P(the trunk is laid so | evidence). */
  probability: number;
  tellApart: TellApart;
  /** Causes of every point, were it so. */
  troubles: Trouble[];
}

export interface DrawingAnswer {
  /** P(every trunk is laid as drawn, but for what the evidence cannot tell from it | evidence). */
  asDrawn: number;
  /** From MIN_ALTERNATIVE on, most probable first; equals by trunk, kind and nodes. */
  alternatives: DrawingAlternative[];
}
