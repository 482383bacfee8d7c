import type { ReadDrawnRecord } from '../../parts/wire.js';

type Trunks = ReadDrawnRecord['trunks'];

/** A unit to be labelled, and what its code opens. */
export interface RoomLabel {
  trunk: string;
  node: Trunks[number]['nodes'][number];
  link: string;
}

/** So many go onto paper at once; a trunk by itself is chosen where there are more. */
export const MOST_LABELS = 400;

/** The stations that are there, in cable order; junction boxes and units that are out have nothing to report. */
export function labelsOf(trunks: Trunks, at: string): { labels: RoomLabel[]; more: number } {
  const all = trunks.flatMap(({ trunk, nodes }) =>
    nodes
      .filter(({ kind, isOut }) => kind === 'station' && !isOut)
      .map((node) => {
        const code = [trunk, node.node].map(encodeURIComponent).join('/');
        return { trunk, node, link: `${at}/${code}` };
      }),
  );
  return { labels: all.slice(0, MOST_LABELS), more: Math.max(0, all.length - MOST_LABELS) };
}
