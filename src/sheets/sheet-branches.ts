import { isHeadEndWord, tidyText } from '../sites/as-built-fields.js';
import type { SheetRow } from './sheet-rows.js';
import type { SheetNote } from './sheet-table.js';

/** The rows of one line of a sheet: a trunk, or a branch that was drawn as a line of its own. */
export interface SheetLine {
  trunk: string;
  rows: SheetRow[];
}

/**
 * A line whose first row is fed from a node of another line is a branch of it: its rows go to that one's trunk. Not
 * where the record knows it as a trunk: there it is a slip of the pen, and told as such.
 */
export function joinBranches(
  lines: SheetLine[],
  isTrunk: (trunk: string) => boolean,
): { lines: SheetLine[]; notes: SheetNote[] } {
  const homes = homesOf(lines);
  const parents = new Map<string, string>();
  for (const { trunk, rows } of lines) {
    const parent = homes.get(feedOf(rows[0]) ?? '');
    if (!isTrunk(trunk) && typeof parent === 'string' && parent !== trunk && trunk !== '')
      parents.set(trunk, parent);
  }
  const joined = new Map(lines.map(({ trunk, rows }) => [trunk, [...rows]]));
  const notes: SheetNote[] = [];
  for (const { trunk, rows } of lines) {
    const root = rootOf(trunk, parents);
    const [first] = rows;
    if (root === undefined || root === trunk || first === undefined) continue;
    joined.get(root)?.push(...rows);
    joined.delete(trunk);
    const from = feedOf(first) ?? '';
    const note = `${trunk} is a branch, fed from ${from}: its nodes are on trunk ${root}`;
    notes.push({ line: first.line, note });
  }
  return { lines: [...joined].map(([trunk, rows]) => ({ trunk, rows })), notes };
}

/** The line that each code stands on; null where two have it. */
function homesOf(lines: SheetLine[]): Map<string, string | null> {
  const homes = new Map<string, string | null>();
  for (const { trunk, rows } of lines) {
    for (const { cells } of rows) {
      const node = tidyText(cells.node ?? '') ?? '';
      homes.set(
        node,
        (homes.get(node) ?? trunk) === trunk && homes.get(node) !== null ? trunk : null,
      );
    }
  }
  return homes;
}

function feedOf(row: SheetRow | undefined): string | undefined {
  const cell = row?.cells.fedFrom ?? '';
  return isHeadEndWord(cell) ? undefined : (tidyText(cell) ?? undefined);
}

/** Undefined where lines are branches of each other. */
function rootOf(trunk: string, parents: ReadonlyMap<string, string>): string | undefined {
  const passed = new Set<string>();
  let root = trunk;
  for (let up = parents.get(root); up !== undefined; up = parents.get(root)) {
    if (passed.has(root)) return undefined;
    passed.add(root);
    root = up;
  }
  return root;
}
