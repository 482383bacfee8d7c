/** A trunk in one line. */
export interface StripOfTrunk {
  trunk: string;
  /** A letter for each node in the record's order: `s` silent, `w` weak, `h` heard, `-` nothing said. */
  marks: string;
  /** Spans by the position, from 0, of the node that they lead into. */
  suspected: { at: number; chance: number }[];
}

/** What was said last of a function at a node. */
export interface LastSaid {
  trunk: string;
  node: string;
  outcome: string;
}

export interface StripFacts {
  /** Nodes of each trunk, in the record's order. */
  trunks: { trunk: string; nodes: string[] }[];
  said: LastSaid[];
  places: {
    place: { kind: string; trunk?: string; to?: string };
    probability: number;
  }[];
}

const LETTERS: readonly [outcome: string, letter: string][] = [
  ['fails', 's'],
  ['weak', 'w'],
  ['works', 'h'],
];

/** The trunks on which something does not work, each in one line. */
export function stripsOf({ trunks, said, places }: StripFacts): StripOfTrunk[] {
  const troubled = new Set(said.filter(isTroubled).map(({ trunk }) => trunk));
  return trunks
    .filter(({ trunk }) => troubled.has(trunk))
    .map(({ trunk, nodes }) => {
      const at = new Map(nodes.map((node, i) => [node, i]));
      return {
        trunk,
        marks: nodes.map((node) => letterOf(said, trunk, node)).join(''),
        suspected: places.flatMap(({ place, probability }) => {
          const position = at.get(place.to ?? '');
          const isHere = place.kind === 'span' && place.trunk === trunk && position !== undefined;
          return isHere ? [{ at: position, chance: probability }] : [];
        }),
      };
    });
}

/** Rooms in which something does not work. */
export function silentRooms(said: readonly LastSaid[]): number {
  return new Set(said.filter(isTroubled).map(({ trunk, node }) => JSON.stringify([trunk, node])))
    .size;
}

function isTroubled({ outcome }: LastSaid): boolean {
  return outcome === 'fails' || outcome === 'weak';
}

function letterOf(said: readonly LastSaid[], trunk: string, node: string): string {
  const here = said.filter((one) => one.trunk === trunk && one.node === node);
  const [, letter] = LETTERS.find(([outcome]) => here.some((one) => one.outcome === outcome)) ?? [];
  return letter ?? '-';
}
