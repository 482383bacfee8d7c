import type { DrawnRecordTrunk } from '../sites/drawing.js';

/** What was heard at a station, for drawing it. */
export type Mark = 'heard' | 'weak' | 'silent' | 'not checked' | 'contradicted';

const SIGNS: Record<Mark, string> = {
  heard: '(o)',
  weak: '(~)',
  silent: '(x)',
  'not checked': '( )',
  contradicted: '(?)',
};

/**
 * Draws a trunk from the head-end on, a line for each node, branches indented behind their tee; the
 * span that is pointed at is marked on the line of the node it feeds.
 */
export function trunkInText(
  { trunk, nodes }: DrawnRecordTrunk,
  markOf: (node: string) => Mark,
  pointAt: string | null,
): string {
  const lines = [`head-end, trunk ${trunk}`];
  const draw = (fedFrom: string | null, indent: string): void => {
    const fed = nodes.filter((node) => node.fedFrom === fedFrom);
    fed.forEach((node, index) => {
      // The last one goes straight on; the others are branches of their own.
      const own = index < fed.length - 1 ? `${indent}|   ` : indent;
      lines.push(lineOf(node, own, markOf(node.node), node.node === pointAt));
      draw(node.node, own);
    });
  };
  draw(null, '  ');
  return lines.join('\n');
}

function lineOf(
  node: DrawnRecordTrunk['nodes'][number],
  indent: string,
  mark: Mark,
  isPointedAt: boolean,
): string {
  const sign = node.kind === 'station' ? SIGNS[mark] : '-+-';
  const name = node.kind === 'station' ? (node.room ?? 'station') : 'junction box';
  const metres = `${node.cableMetres} m`.padStart(8);
  const line = `${indent}${isPointedAt ? '#' : '|'}${metres}  ${sign} ${node.node.padEnd(5)} ${name}`;
  const said = node.kind === 'station' && mark !== 'not checked' ? `, ${mark}` : '';
  return `${line}${said}${isPointedAt ? '   <== look here first' : ''}`;
}
