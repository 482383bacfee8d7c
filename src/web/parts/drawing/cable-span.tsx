import { LEAST_SHOWN } from './drawn-facts.js';
import { percent } from './drawing-words.js';
import { bracketsOver, type PlacedNode, type PlacedTrunk } from '#app/drawing/place-trunk.js';

interface CableSpanProps {
  placed: PlacedNode;
  chance: number;
  /** A stretch has the number. */
  isBracketed: boolean;
  onChoose: (() => void) | undefined;
}

/** A span, as thick as its chance. */
export function CableSpan({ placed, chance, isBracketed, onChoose }: CableSpanProps) {
  const { path, numberAt } = placed;
  return (
    <g onClick={onChoose} class="span">
      <path d={path} class="span-area" />
      <path
        d={path}
        class={chance >= LEAST_SHOWN ? 'span-line suspected' : 'span-line'}
        stroke-width={2 + chance * 14}
      />
      {chance >= LEAST_SHOWN && !isBracketed && (
        <text x={numberAt.x} y={numberAt.y} class="drawing-number" text-anchor="middle">
          {percent(chance)}
        </text>
      )}
    </g>
  );
}

interface StretchesProps {
  placed: PlacedTrunk;
  stretches: readonly { into: string[]; probability: number }[];
  isUpright: boolean;
}

/** Brackets over spans that nothing tells apart, each stretch with one number. */
export function Stretches({ placed, stretches, isUpright }: StretchesProps) {
  return (
    <>
      {stretches.flatMap(({ into, probability }) =>
        bracketsOver(placed, into, isUpright).map(({ path, numberAt }) => (
          <g key={path}>
            <path d={path} class="mark-stroke" stroke-width={1.5} />
            {numberAt && (
              <text
                x={numberAt.x}
                y={numberAt.y}
                class="drawing-number"
                text-anchor={isUpright ? 'end' : 'middle'}
              >
                {percent(probability)}
              </text>
            )}
          </g>
        )),
      )}
    </>
  );
}
