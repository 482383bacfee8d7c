import type { Drawing } from '../drawing/drawing.js';
import type { DrawnNode } from '../drawing/drawn-node.js';
import type { Mark, Words } from './words.js';

const SIGNS: Record<Mark, string> = {
  heard: '(o)',
  weak: '(~)',
  silent: '(x)',
  'not checked': '( )',
  contradicted: '(?)',
};

const JUNCTION_BOX = '-+-';

interface DrawnInText {
  markOf: (node: string) => Mark;
  /** The node into which the span leads that is pointed at; null: none is. */
  pointAt: string | null;
}

/**
 * Draws a trunk from the head-end on, a line for each node, branches indented behind their tee; the
 * span that is pointed at is marked on the line of the node it feeds.
 */
export function trunkInText(
  drawing: Drawing,
  trunk: string,
  { markOf, pointAt }: DrawnInText,
  { drawing: words }: Words,
): string {
  const lines = [words.title(trunk)];
  const draw = (fedFrom: string | null, indent: string): void => {
    const fed = drawing.fedBy(trunk, fedFrom);
    fed.forEach((node, index) => {
      // The last one goes straight on; the others are branches of their own.
      const own = index < fed.length - 1 ? `${indent}|   ` : indent;
      lines.push(lineOf(node, own, markOf(node.id), node.id === pointAt, words));
      draw(node.id, own);
    });
  };
  draw(null, '  ');
  return lines.join('\n');
}

/** What the signs mean, on one line. */
export function signsInText({ drawing: { marks, junctionBox } }: Words): string {
  const { contradicted: _, ...told } = marks;
  const signs = Object.entries(told).map(([mark, words]) => `${SIGNS[mark as Mark]} ${words}`);
  return [...signs, `${JUNCTION_BOX} ${junctionBox}`].join('   ');
}

function lineOf(
  node: DrawnNode,
  indent: string,
  mark: Mark,
  isPointedAt: boolean,
  words: Words['drawing'],
): string {
  const isStation = node.kind === 'station';
  const sign = isStation ? SIGNS[mark] : JUNCTION_BOX;
  const name = isStation ? (node.name ?? words.station) : words.junctionBox;
  const metres = words.metres(node.cableMetres).padStart(8);
  const line = `${indent}${isPointedAt ? '#' : '|'}${metres}  ${sign} ${node.id.padEnd(5)} ${name}`;
  const said = isStation && mark !== 'not checked' ? `, ${words.marks[mark]}` : '';
  return `${line}${said}${isPointedAt ? `   <== ${words.lookHere}` : ''}`;
}
