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

/** A van's list is no longer than this. */
export const MOST_VAN_PARTS = 200;

/** What is cut off and shorter is thrown away. */
const SHORTEST_REST_METRES = 1;

/**
 * What a van carries once parts were used: no count falls below none, and of a cable the shortest piece that is long enough is
 * cut, so that what is left of it is a piece too. Of what the van has by pieces, a name without a length is so many metres of it. The same
 * list where nothing of it was in the van.
 */
export function leftInVan(
  van: readonly VanPart[],
  used: readonly { name: string; quantity: number }[],
): readonly VanPart[] {
  return used.reduce((left, { name, quantity }) => {
    const { kind, metres } = pieceOf(name);
    const isByMetres = metres === 0 && piecesOf(left, kind).length > 0;
    return isByMetres
      ? withoutMetres(left, kind, quantity)
      : withoutPart(left, name, Math.ceil(quantity));
  }, van);
}

/** What makes one list of the other: what went out, and as less than none what came in, the rest of a piece that was cut. */
export function takenOut(before: readonly VanPart[], after: readonly VanPart[]): VanPart[] {
  const names = [...new Set([...before, ...after].map(({ name }) => name))];
  return names
    .map((name) => ({ name, quantity: countOf(before, name) - countOf(after, name) }))
    .filter(({ quantity }) => quantity !== 0);
}

/**
 * A van with what was taken out of it put back. Of a cable all of it or, where the rest of a piece was used or thrown away
 * since, nothing: the whole piece is not to be had any more.
 */
export function backInVan(van: readonly VanPart[], taken: readonly VanPart[]): readonly VanPart[] {
  const kinds = [...new Set(taken.map(({ name }) => pieceOf(name).kind))];
  return kinds.reduce((left, kind) => {
    const ofKind = taken.filter(({ name }) => pieceOf(name).kind === kind);
    const isWhole = ofKind.every(({ name, quantity }) => countOf(left, name) + quantity >= 0);
    if (!isWhole) return left;
    const rests = new Set(ofKind.filter(({ quantity }) => quantity < 0).map(({ name }) => name));
    return ofKind
      .reduce((all, { name, quantity }) => withPieces(all, name, quantity), left)
      .filter(({ name, quantity }) => quantity > 0 || !rests.has(name));
  }, van);
}

function countOf(van: readonly VanPart[], asked: string): number {
  return van.find(({ name }) => partKey(name) === partKey(asked))?.quantity ?? 0;
}

/** Those that there are of a cable, shortest first. */
function piecesOf(van: readonly VanPart[], kind: string): { part: VanPart; metres: number }[] {
  return van
    .map((part) => ({ part, ...pieceOf(part.name) }))
    .filter((piece) => piece.part.quantity > 0 && piece.kind === kind && piece.metres > 0)
    .sort((a, b) => a.metres - b.metres);
}

/** Where no piece is long enough the longest ones go whole. */
function withoutMetres(van: readonly VanPart[], kind: string, metres: number): readonly VanPart[] {
  if (metres <= 0) return van;
  const pieces = piecesOf(van, kind);
  const longest = pieces.at(-1);
  if (longest === undefined) return van;
  if (longest.metres >= metres) return withoutPart(van, `${metres} m of ${kind}`, 1);
  const count = Math.min(longest.part.quantity, Math.floor(metres / longest.metres));
  const left = withoutPart(van, longest.part.name, count);
  return withoutMetres(left, kind, metres - count * longest.metres);
}

function withoutPart(van: readonly VanPart[], name: string, count: number): readonly VanPart[] {
  const { kind, metres } = pieceOf(name);
  if (count <= 0) return van;
  const [cut] = van
    .filter((part) => part.quantity > 0 && pieceOf(part.name).kind === kind)
    .filter((part) => pieceOf(part.name).metres >= metres)
    .sort((a, b) => pieceOf(a.name).metres - pieceOf(b.name).metres);
  if (cut === undefined) return van;
  const taken = Math.min(count, cut.quantity);
  const left = van.map((part) =>
    part === cut ? { ...part, quantity: part.quantity - taken } : part,
  );
  const rest = Math.floor((pieceOf(cut.name).metres - metres) * 10) / 10;
  const kept =
    rest < SHORTEST_REST_METRES ? left : withPieces(left, lengthOf(cut.name, rest), taken);
  return withoutPart(kept, name, count - taken);
}

function withPieces(van: readonly VanPart[], name: string, count: number): readonly VanPart[] {
  const known = van.findIndex((part) => partKey(part.name) === partKey(name));
  if (known >= 0) {
    return van.map((part, at) =>
      at === known ? { ...part, quantity: part.quantity + count } : part,
    );
  }
  return van.length < MOST_VAN_PARTS ? [...van, { name, quantity: count }] : van;
}

/** A piece of the same cable, so long. */
function lengthOf(name: string, metres: number): string {
  return name.replace(/^\s*\d+(?:[.,]\d+)?/, String(metres));
}

/** "20 m of trunk cable" is 20 metres of "trunk cable"; anything else has no length. */
function pieceOf(name: string): { kind: string; metres: number } {
  const [, metres, kind] = /^(\d+(?:[.,]\d+)?) ?m(?: of)? (.+)$/.exec(partKey(name)) ?? [];
  if (metres === undefined || kind === undefined) return { kind: partKey(name), metres: 0 };
  return { kind, metres: Number(metres.replace(',', '.')) };
}
