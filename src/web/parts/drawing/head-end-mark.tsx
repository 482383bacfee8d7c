import { DRAWING_WORDS } from './drawing-words.js';

interface HeadEndMarkProps {
  x: number;
  y: number;
  headEnd: number;
  port: number;
  isUpright: boolean;
}

/** The unit in the office with the port of the trunk, thicker the more they are suspected. */
export function HeadEndMark({ x, y, headEnd, port, isUpright }: HeadEndMarkProps) {
  const chance = Math.max(headEnd, port);
  return (
    <g>
      <rect
        x={isUpright ? x - 23 : x - 34}
        y={y - 20}
        width={46}
        height={40}
        rx={3}
        class="mark-line"
        stroke-width={2 + headEnd * 8}
      />
      <path
        d={isUpright ? `M${x - 8} ${y + 20}v7h16v-7` : `M${x + 12} ${y - 8}h7v16h-7`}
        class="mark-line"
        stroke-width={2 + port * 8}
      />
      <text x={isUpright ? x : x - 11} y={y - 28} class="drawing-label" text-anchor="middle">
        {DRAWING_WORDS.headEnd}
      </text>
      {chance >= 0.05 && (
        <text x={isUpright ? x : x - 11} y={y + 6} class="drawing-number" text-anchor="middle">
          {Math.round(chance * 100)} %
        </text>
      )}
    </g>
  );
}
