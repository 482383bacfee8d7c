import { Drawing } from '../../drawing/drawing.js';
import type { FunctionName } from '../../plan/functions.js';
import type { JsonReader } from './json-reader.js';
import type { RequestNode, RequestTrunk } from './locate-request.js';

interface Told {
  trunk: string;
  node: string;
  func: FunctionName | undefined;
  disconnectedBelow: string | undefined;
}

/** Reports, field by field, what evidence says of a drawing that is not on it. */
export class DrawingCheck {
  readonly drawing: Drawing<RequestNode>;
  constructor(
    private readonly reader: JsonReader,
    trunks: readonly RequestTrunk[],
  ) {
    this.drawing = new Drawing(trunks);
  }

  /** Whether the trunk is drawn. */
  checkTrunk(at: string, trunk: string): boolean {
    if (this.drawing.treeOf(trunk)) return true;
    this.reader.error(`${at}/trunk`, `"${trunk}" is not a trunk of this request`);
    return false;
  }

  /** The node, where it and its trunk are drawn. */
  checkNode(at: string, trunk: string, node: string, nodeField: string): RequestNode | undefined {
    if (!this.checkTrunk(at, trunk)) return undefined;
    const drawn = this.drawing.nodeAt(trunk, node);
    if (!drawn) this.reader.error(`${at}/${nodeField}`, `"${node}" is not a node of this trunk`);
    return drawn;
  }

  /** A node with a unit at work. */
  checkStation(at: string, trunk: string, node: string): RequestNode | undefined {
    const drawn = this.checkNode(at, trunk, node, 'node');
    if (drawn?.kind === 'station' && !drawn.isOut) return drawn;
    const what = drawn?.isOut
      ? 'is out: nothing is told of it'
      : 'is a junction box: no room there';
    if (drawn) this.reader.error(`${at}/node`, `"${node}" ${what}`);
    return undefined;
  }

  checkTold(at: string, { trunk, node, func, disconnectedBelow }: Told): void {
    const station = this.checkStation(at, trunk, node);
    if (func && station?.lacks?.includes(func))
      this.reader.error(`${at}/function`, `"${node}" lacks ${func}`);
    if (disconnectedBelow !== undefined && this.drawing.treeOf(trunk))
      this.checkNode(at, trunk, disconnectedBelow, 'disconnectedBelow');
  }

  checkSpan(at: string, trunk: string, from: string | null, to: string): void {
    const drawn = this.checkNode(at, trunk, to, 'to');
    const feeder = this.drawing.pathTo(trunk, to).at(-2)?.id ?? null;
    if (drawn && feeder !== from)
      this.reader.error(
        `${at}/from`,
        feeder === null ? `"${to}" is fed from the port: null` : `"${to}" is fed from "${feeder}"`,
      );
  }
}
