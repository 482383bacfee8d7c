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
      <StripMarks marks={marks} x={x} />
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

const DISC = (x: number, radius: number) =>
  `M${x - radius} 12a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0z`;

/** What each mark looks like, in a few strokes. */
const DRAWN: Readonly<Record<string, readonly [look: Look, at: (x: number) => string][]>> = {
  s: [
    ['outline', (x) => `M${x - 4.5} 7.5h9v9h-9z`],
    ['cross', (x) => `M${x - 2.5} 9.5l5 5m0-5l-5 5`],
  ],
  h: [['full', (x) => DISC(x, 4)]],
  w: [
    ['outline', (x) => DISC(x, 4)],
    ['fine', (x) => `M${x - 4} 12a4 4 0 0 0 8 0z`],
  ],
};
const NOTHING_SAID: (typeof DRAWN)[string] = [['fine', (x) => DISC(x, 1.8)]];

const LOOKS = {
  outline: { class: 'mark-line', 'stroke-width': 1.5 },
  cross: { class: 'mark-stroke', 'stroke-width': 1.5 },
  full: { class: 'mark-full', 'stroke-width': 1 },
  fine: { class: 'mark-full', 'stroke-width': 0.5 },
} as const;
type Look = keyof typeof LOOKS;

/** One path for all that look the same: a list of 500 tickets has some elements for each, however many rooms there are. */
function StripMarks({ marks, x }: { marks: string; x: (at: number) => number }) {
  const paths: Partial<Record<Look, string>> = {};
  for (const [i, mark] of [...marks].entries())
    for (const [look, at] of DRAWN[mark] ?? NOTHING_SAID)
      paths[look] = `${paths[look] ?? ''}${at(x(i))}`;
  return (
    <>
      {(Object.keys(LOOKS) as Look[]).map(
        (look) => paths[look] !== undefined && <path key={look} d={paths[look]} {...LOOKS[look]} />,
      )}
    </>
  );
}
