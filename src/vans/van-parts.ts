/** A kind of part in a van. */
export interface VanPart {
  /** As job sheets and mendings name it: "connectors", "30 m of trunk cable". */
  name: string;
  quantity: number;
}

/** What is needed together, and how likely just that is. */
export interface NeededTogether {
  parts: readonly string[];
  chance: number;
}

/** The same for every way of writing one name: capitals, blanks and hyphens do not matter. */
export function partKey(name: string): string {
  return name
    .toLowerCase()
    .replace(/[-\s]+/g, ' ')
    .trim();
}

/** Whether a van has a part; of a cable, one piece that is long enough. */
export function isInVan(van: readonly VanPart[], name: string): boolean {
  const needed = pieceOf(name);
  return van.some((part) => {
    const carried = pieceOf(part.name);
    return part.quantity > 0 && carried.kind === needed.kind && carried.metres >= needed.metres;
  });
}

/** The chance that something is needed that the van does not have. */
export function secondTripChance(
  van: readonly VanPart[],
  needs: readonly NeededTogether[],
): number {
  const missing = needs.filter(({ parts }) => parts.some((name) => !isInVan(van, name)));
  return missing.reduce((sum, { chance }) => sum + chance, 0);
}

/** "20 m of trunk cable" is 20 metres of "trunk cable"; anything else has no length. */
function pieceOf(name: string): { kind: string; metres: number } {
  const [, metres, kind] = /^(\d+(?:[.,]\d+)?) ?m(?: of)? (.+)$/.exec(partKey(name)) ?? [];
  if (metres === undefined || kind === undefined) return { kind: partKey(name), metres: 0 };
  return { kind, metres: Number(metres.replace(',', '.')) };
}
