/** One trunk in one line, for lists: `marks` has a letter for each node in cable order. */
export interface DrawnStrip {
  /** s silent, h heard, w weak, - nothing said. */
  marks: string;
  /** Spans that are suspected, by the position of the node that they lead into. */
  suspected: readonly { at: number; chance: number }[];
  /** Nodes of whose own parts one is suspected, by their positions. */
  ringed?: readonly { at: number; chance: number }[];
  /** Where somebody is to go, by its position; -1: the head-end. */
  here?: number | undefined;
  /** It goes on from the row before: there is no head-end. */
  isContinued?: boolean;
}

/** A long trunk in rows of at most so many nodes. */
export function stripRows(
  { marks, suspected, ringed = [], here }: DrawnStrip,
  most: number,
): DrawnStrip[] {
  const rows: DrawnStrip[] = [];
  for (let first = 0; first === 0 || first < marks.length; first += most) {
    const isIn = (at: number) => at >= first && at < first + most;
    const cut = (list: NonNullable<DrawnStrip['ringed']>) =>
      list.filter(({ at }) => isIn(at)).map(({ at, chance }) => ({ at: at - first, chance }));
    const isHere = here !== undefined && (isIn(here) || (here === -1 && first === 0));
    rows.push({
      marks: marks.slice(first, first + most),
      suspected: cut(suspected),
      ringed: cut(ringed),
      here: isHere ? here - first : undefined,
      isContinued: first > 0,
    });
  }
  return rows;
}
