import type { DrawnStrip } from './strip-rows.js';

const STEP = 12;

interface TrunkStripProps extends DrawnStrip {
  /** On a phone it is larger than in a list. */
  scale?: number;
}

/** The trunk one line high; what it shows is said in words beside it. */
export function TrunkStrip({
  marks,
  suspected,
  ringed = [],
  here,
  isContinued = false,
  scale = 1,
}: TrunkStripProps) {
  const width = marks.length * STEP + 18;
  const x = (at: number) => 14 + (at + 0.5) * STEP;
  const begins = isContinued ? 2 : 10;
  const above = here === undefined ? 0 : 12;
  return (
    <svg
      class="strip"
      viewBox={`0 ${-above} ${width} ${24 + above}`}
      width={width * scale}
      height={(24 + above) * scale}
      aria-hidden="true"
      preserveAspectRatio="xMinYMid meet"
    >
      {!isContinued && (
        <rect x={1} y={5} width={9} height={14} class="mark-line" stroke-width={1.5} />
      )}
      <path d={`M${begins} 12H${x(marks.length - 1)}`} class="span-line" stroke-width={1.5} />
      {suspected.map(({ at, chance }) => (
        <path
          key={at}
          d={`M${at === 0 ? begins : x(at - 1)} 12H${x(at)}`}
          class="span-line suspected"
          stroke-width={2 + chance * 10}
        />
      ))}
      {[...marks].map((mark, i) => (
        <StripMark key={i} mark={mark} x={x(i)} />
      ))}
      {ringed.map(({ at, chance }) => (
        <circle
          key={at}
          cx={x(at)}
          cy={12}
          r={7.5}
          class="span-line suspected"
          stroke-width={1 + chance * 3}
        />
      ))}
      {here !== undefined && (
        <path d={`M${here === -1 ? 6 : x(here)} 2l-6 -11h12z`} class="strip-here" />
      )}
    </svg>
  );
}

function StripMark({ mark, x }: { mark: string; x: number }) {
  switch (mark) {
    case 's':
      return (
        <g>
          <rect x={x - 4.5} y={7.5} width={9} height={9} class="mark-line" stroke-width={1.5} />
          <path d={`M${x - 2.5} 9.5l5 5m0-5l-5 5`} class="mark-stroke" stroke-width={1.5} />
        </g>
      );
    case 'h':
      return <circle cx={x} cy={12} r={4} class="mark-full" stroke-width={1} />;
    case 'w':
      return (
        <g>
          <circle cx={x} cy={12} r={4} class="mark-line" stroke-width={1.5} />
          <path d={`M${x - 4} 12a4 4 0 0 0 8 0z`} class="mark-full" stroke-width={0.5} />
        </g>
      );
    default:
      return <circle cx={x} cy={12} r={1.8} class="mark-full" stroke-width={0.5} />;
  }
}
