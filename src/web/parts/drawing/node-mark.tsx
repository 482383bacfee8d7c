import type { ShownMark as Mark } from './drawn-facts.js';

interface NodeMarkProps {
  mark: Mark | 'box' | 'out' | 'expected' | 'doubted';
  /** Of the outline, thicker the more the node itself is suspected. */
  outline?: number;
}

/**
 * A node, about 20 pixels wide around 0, 0. Sound fills it: a full disc is heard, half of one is weak; a square with a cross is silent; a
 * small ring is where nothing was said.
 */
export function NodeMark({ mark, outline = 2 }: NodeMarkProps) {
  const line = { class: 'mark-line', 'stroke-width': outline };
  switch (mark) {
    case 'works':
      return <circle r={9} class="mark-full" stroke-width={outline} />;
    case 'weak':
      return (
        <>
          <circle r={9} {...line} />
          <path d="M-9 0A9 9 0 0 0 9 0Z" class="mark-full" stroke-width={1} />
        </>
      );
    case 'fails':
      return (
        <>
          <rect x={-10} y={-10} width={20} height={20} {...line} stroke-width={outline + 1} />
          <path d="M-6 -6L6 6M6 -6L-6 6" class="mark-stroke" stroke-width={2.5} />
        </>
      );
    case 'expected':
      return (
        <>
          <circle r={6} {...line} />
          <path d="M-2.5 -2.5L2.5 2.5M2.5 -2.5L-2.5 2.5" class="mark-stroke" stroke-width={1.5} />
        </>
      );
    case 'unsaid':
      return <circle r={6} {...line} />;
    case 'box':
      return <path d="M-10 0L-5 -8H5L10 0L5 8H-5Z" {...line} />;
    case 'doubted':
      return (
        <>
          <circle r={8} {...line} />
          <path d="M-5 -2.5H5M-5 2.5H5M-3 5.5L3 -5.5" class="mark-stroke" stroke-width={1.8} />
        </>
      );
    case 'out':
      return <circle r={8} {...line} stroke-dasharray="3 3" />;
  }
}

/** Several functions, small and in their fixed order, above a node. */
export function FunctionMarks({
  functions,
}: {
  functions: readonly { name: string; outcome: Exclude<Mark, 'unsaid'> }[];
}) {
  return (
    <g transform={`translate(${-((functions.length - 1) * 9) / 2} -19)`}>
      {functions.map(({ name, outcome }, i) => (
        <g key={name} transform={`translate(${i * 9} 0) scale(0.38)`}>
          <NodeMark mark={outcome} outline={4} />
        </g>
      ))}
    </g>
  );
}

/** So many groups of a node have room beside it. */
const MOST_TAGS = 3;

/** The letters of its groups, each in a tag to the left above a node. */
export function GroupTags({
  letters,
  isUpright,
}: {
  letters: readonly string[];
  isUpright: boolean;
}) {
  const shown = letters.length > MOST_TAGS ? [...letters.slice(0, MOST_TAGS - 1), '…'] : letters;
  const left = isUpright ? -14 : -16;
  return (
    <g class="group-tags">
      {[...shown].reverse().map((letter, i) => (
        <text key={letter} x={left - i * 10} y={isUpright ? -9 : 19} text-anchor="end">
          {letter}
        </text>
      ))}
    </g>
  );
}
