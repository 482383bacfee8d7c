import type { AsBuilt } from './as-built.js';

/** Some 100 MB: a node with its texts takes half a kilobyte. */
const NODES_KEPT = 200_000;

/** Drawings of versions, which never change: the ones used last, up to a bound on their nodes. */
export class KeptDrawings {
  /** In the order of their last use. */
  private readonly drawings = new Map<string, { drawing: AsBuilt; nodes: number }>();
  private nodes = 0;

  constructor(private readonly most = NODES_KEPT) {}

  get(key: string): AsBuilt | undefined {
    const known = this.drawings.get(key);
    if (known === undefined) return undefined;
    this.drawings.delete(key);
    this.drawings.set(key, known);
    return known.drawing;
  }

  keep(key: string, drawing: AsBuilt): void {
    if (this.drawings.has(key)) return;
    const nodes = 1 + drawing.trunks.reduce((sum, trunk) => sum + trunk.nodes.length, 0);
    this.drawings.set(key, { drawing, nodes });
    this.nodes += nodes;
    for (const [oldest, one] of this.drawings) {
      if (this.nodes <= this.most) return;
      this.drawings.delete(oldest);
      this.nodes -= one.nodes;
    }
  }
}
