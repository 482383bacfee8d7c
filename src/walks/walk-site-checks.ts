import type { FunctionName } from '../locator/index.js';
import { drawingOf, speaks } from '../sites/drawing.js';
import {
  arrivalCheck,
  disconnectCheck,
  liftedCheck,
  roomCheck,
  type SiteCheck,
} from './walk-checks.js';
import type { Saying, Standing } from './walk-place.js';
import type { WorldReader } from './walk-reader.js';
import type { WalkedDrawing } from './walk-spots.js';

/** What is checked on these trunks, and in what worlds. */
export interface CheckedTrunks {
  drawing: WalkedDrawing;
  trunks: readonly string[];
  read: WorldReader;
  saying: Saying;
}

function checkedTrunks({ drawing, trunks }: CheckedTrunks): WalkedDrawing['trunks'] {
  return drawing.trunks.filter(({ trunk }) => trunks.includes(trunk));
}

/** The first of the functions is also measured wherever it arrives. */
export function siteChecks(on: CheckedTrunks, functions: readonly FunctionName[]): SiteCheck[] {
  const { read, saying } = on;
  const [main = 'announcement'] = functions;
  return checkedTrunks(on).flatMap(({ trunk, nodes }) => [
    ...nodes.slice(0, 1).map(({ node }) => {
      const output = { trunk, node: null, nextNode: node };
      return arrivalCheck(read, output, main, saying);
    }),
    ...nodes.flatMap((drawn) => [
      ...functions
        .filter((name) => speaks(drawn, name))
        .map((name) => roomCheck(read, { trunk, node: drawn.node }, name, saying)),
      arrivalCheck(read, { trunk, node: drawn.node, nextNode: drawn.node }, main, saying),
    ]),
  ]);
}

/** Halving a trunk with a short on it: at each room what comes in is lifted off, or all past it disconnected. */
export function shortChecks(on: CheckedTrunks, main: FunctionName): SiteCheck[] {
  const { drawing, read, saying } = on;
  return checkedTrunks(on).flatMap(({ trunk, nodes }) => {
    const isFedThrough = pathsOf(drawing, trunk);
    return nodes.flatMap((drawn) => {
      const at = { trunk, node: drawn.node };
      const heard = speaks(drawn, main) ? main : null;
      return [
        liftedCheck(read, at, isFedThrough, saying),
        disconnectCheck(read, at, heard, saying),
      ];
    });
  });
}

/** Whether a node lies on the way to another; few places may be at fault, and every check asks about each. */
function pathsOf(drawing: WalkedDrawing, trunk: string): (at: string, node: string) => boolean {
  const paths = new Map<string, ReadonlySet<string>>();
  return (at, node) => {
    const path =
      paths.get(at) ??
      new Set(
        drawingOf(drawing)
          .pathTo(trunk, at)
          .map(({ id }) => id),
      );
    paths.set(at, path);
    return path.has(node);
  };
}

/** Once terminals are open, what the room gets is measured there; at a cable's end, what arrives. */
export function seenOnceOpen(key: string, { trunk, node }: Standing, main: FunctionName): string {
  const [component, ownTrunk] = JSON.parse(key) as [string, string];
  if (component === 'cable') return JSON.stringify(['arrival', trunk, node, main]);
  if (component === 'port' || node === null)
    return JSON.stringify(['arrival', ownTrunk, null, main]);
  return JSON.stringify(['room', trunk, node, main]);
}

/** With a short, what is opened is disconnected there too. */
export function shortSeenOnceOpen(
  key: string,
  { trunk, node }: Standing,
  main: FunctionName,
): string {
  const [component, ownTrunk] = JSON.parse(key) as [string, string];
  if (component === 'port' || node === null)
    return JSON.stringify(['arrival', ownTrunk, null, main]);
  const isBefore = component === 'cable' || component === 'junction-in';
  return JSON.stringify([isBefore ? 'lifted' : 'disconnect', trunk, node]);
}
