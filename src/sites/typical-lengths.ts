import type { RecordNode } from './as-built.js';
import type { GivenNode } from './as-built-fields.js';

/** Where a site's sheet has no length at all: about a classroom. Common practice, no source. */
const ROOM_TO_ROOM_METRES = 10;

/**
 * Nodes whose length nobody knows get a typical one, marked as guessed: the middle of the lengths that
 * were measured on the same trunk, else on the whole site.
 */
export function withTypicalLengths(trunks: readonly GivenNode[][]): RecordNode[][] {
  const ofSite = median(trunks.flatMap(measuredMetres)) ?? ROOM_TO_ROOM_METRES;
  return trunks.map((nodes) => {
    const typical = median(measuredMetres(nodes)) ?? ofSite;
    return nodes.map(({ cableMetres, isLengthGuessed, ...node }) => ({
      ...node,
      cableMetres: cableMetres ?? typical,
      isLengthGuessed: isLengthGuessed || cableMetres === null,
    }));
  });
}

function measuredMetres(nodes: readonly GivenNode[]): number[] {
  return nodes.flatMap(({ cableMetres, isLengthGuessed }) =>
    cableMetres === null || isLengthGuessed ? [] : [cableMetres],
  );
}

/** The lower one of the two in the middle: a length that somebody did measure. */
function median(metres: number[]): number | undefined {
  return metres.toSorted((a, b) => a - b)[Math.floor((metres.length - 1) / 2)];
}
