import { type FunctionName, pointKey } from '../plan/functions.js';
import { type DrawnRecord, findNode, speaks } from '../sites/drawing.js';
import { type Heard, isTrouble } from './observation.js';

/** A function that was said not to work where the record says that it cannot. */
export interface SetAside {
  trunk: string;
  node: string;
  function: FunctionName;
  /** The unit is bridged over or taken out; otherwise it was never fitted for the function. */
  isOut: boolean;
}

/** What was heard, but for units that are out or lack the function: of these nothing is asked and nothing is to be proven. */
export function heededOn(
  drawing: DrawnRecord,
  all: readonly Heard[],
): { heard: Heard[]; setAside: SetAside[] } {
  const setAside = new Map<string, SetAside>();
  const heard = all.filter((one) => {
    const drawn = findNode(drawing, one.trunk, one.node);
    if (drawn === undefined || speaks(drawn, one.function)) return true;
    const { trunk, node, function: name } = one;
    const isOut = drawn.isOut === true;
    if (isTrouble(one)) setAside.set(pointKey(one), { trunk, node, function: name, isOut });
    return false;
  });
  return { heard, setAside: [...setAside.values()] };
}
