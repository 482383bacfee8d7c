import { useId } from 'preact/hooks';
import { ticksTo } from '../../parts/chart-scale.js';
import { useWidth } from '../../parts/use-width.js';

/** One line of a chart; all values in the chart's unit. */
export interface ChartBar {
  key: string;
  label: string;
  /** The numbers in words. */
  said: string;
  /** Laid end to end from zero. */
  parts: readonly number[];
  /** What it is held against. */
  mark?: number | undefined;
  /** Limits around the sum of the parts; null: nothing bounds it above. */
  limits?: { low: number; high: number | null };
}

interface BarChartProps {
  title: string;
  bars: readonly ChartBar[];
  /** What each of the parts is, in their order. */
  legend: readonly string[];
  markWords?: string;
  limitsWords?: string;
  /** A mark of the axis in words. */
  tick: (value: number) => string;
}

const BAR = 18;
const ROOM = 6;

/** Bars from zero, parts told apart by their filling; the table beside has every number. */
export function BarChart(props: BarChartProps) {
  const { title, bars, tick } = props;
  const { ref, width } = useWidth();
  const id = useId();
  const ticks = ticksTo(Math.max(...bars.map(mostOf)));
  const end = ticks.at(-1) ?? 1;
  const x = (value: number) => ROOM + (Math.min(value, end) / end) * (width - 2 * ROOM);
  return (
    <figure class="chart">
      <figcaption>{title}</figcaption>
      <Legend {...props} id={id} />
      <div ref={ref}>
        {bars.map((bar, n) => (
          <div key={bar.key} class="chart-bar">
            <p>
              {bar.label}: <span class="soft">{bar.said}</span>
            </p>
            <svg width={width} height={BAR + 4} aria-hidden="true">
              <Fillings id={`${id}b${n}`} />
              <Bar bar={bar} id={`${id}b${n}`} x={x} />
            </svg>
          </div>
        ))}
        <svg class="chart-axis" width={width} height="26" aria-hidden="true">
          <line x1={x(0)} x2={x(end)} y1="1" y2="1" />
          {ticks.map((value, i) => (
            <g key={value} transform={`translate(${x(value)} 0)`}>
              <line y1="0" y2="6" />
              <text
                y="20"
                text-anchor={i === 0 ? 'start' : i === ticks.length - 1 ? 'end' : 'middle'}
              >
                {tick(value)}
              </text>
            </g>
          ))}
        </svg>
      </div>
    </figure>
  );
}

function Legend({ id, legend, markWords, limitsWords }: BarChartProps & { id: string }) {
  return (
    <ul class="chart-legend">
      {legend.map((words, i) => (
        <li key={words}>
          <svg width="24" height="16" aria-hidden="true">
            <Fillings id={`${id}l${i}`} />
            <rect width="24" height="16" {...filled(`${id}l${i}`, i)} />
          </svg>
          {words}
        </li>
      ))}
      {markWords !== undefined && (
        <li>
          <svg width="24" height="16" aria-hidden="true">
            <Mark at={12} />
          </svg>
          {markWords}
        </li>
      )}
      {limitsWords !== undefined && (
        <li>
          <svg width="36" height="16" aria-hidden="true">
            <Whisker from={3} to={33} middle={18} isOpen={false} />
          </svg>
          {limitsWords}
        </li>
      )}
    </ul>
  );
}

function mostOf({ parts, mark = 0, limits }: ChartBar): number {
  return Math.max(sumOf(parts), mark, limits?.high ?? limits?.low ?? 0);
}

function sumOf(parts: readonly number[]): number {
  return parts.reduce((sum, one) => sum + one, 0);
}

interface BarProps {
  bar: ChartBar;
  id: string;
  x: (value: number) => number;
}

function Bar({ bar: { parts, mark, limits }, id, x }: BarProps) {
  return (
    <>
      {limits === undefined &&
        parts.map((value, i) => {
          const from = sumOf(parts.slice(0, i));
          const rect = { x: x(from), width: Math.max(0, x(from + value) - x(from)) };
          return value > 0 && <rect key={i} {...rect} y="2" height={BAR} {...filled(id, i)} />;
        })}
      {limits !== undefined && (
        <Whisker
          from={x(limits.low)}
          to={limits.high === null ? x(Infinity) : x(limits.high)}
          middle={parts.length === 0 ? null : x(sumOf(parts))}
          isOpen={limits.high === null}
        />
      )}
      {mark !== undefined && <Mark at={x(mark)} />}
    </>
  );
}

/** A line across the bar with a foot to either side: seen on any filling. */
function Mark({ at }: { at: number }) {
  return (
    <path
      class="chart-mark"
      d={`M ${at - 5} 1 H ${at + 5} M ${at} 1 V 21 M ${at - 5} 21 H ${at + 5}`}
    />
  );
}

interface WhiskerProps {
  from: number;
  to: number;
  /** The estimate; null: there is none. */
  middle: number | null;
  /** Nothing bounds it above: an arrow. */
  isOpen: boolean;
}

function Whisker({ from, to, middle, isOpen }: WhiskerProps) {
  const end = isOpen ? `M ${to - 7} 6 L ${to} 11 L ${to - 7} 16` : `M ${to} 4 V 18`;
  return (
    <g class="chart-whisker">
      <path d={`M ${from} 4 V 18 M ${from} 11 H ${to} ${end}`} />
      {middle !== null && <circle cx={middle} cy="11" r="5" />}
    </g>
  );
}

/** Full, hatched, dotted. */
function filled(id: string, part: number): { class: string; fill?: string } {
  const name = ['', 'hatched', 'dotted'][part % 3];
  return name === ''
    ? { class: 'chart-part is-full' }
    : { class: 'chart-part', fill: `url(#${id}${name})` };
}

function Fillings({ id }: { id: string }) {
  return (
    <defs class="chart-fillings">
      <pattern id={`${id}hatched`} width="6" height="6" patternUnits="userSpaceOnUse">
        <path d="M 0 6 L 6 0 M -1 1 L 1 -1 M 5 7 L 7 5" />
      </pattern>
      <pattern id={`${id}dotted`} width="6" height="6" patternUnits="userSpaceOnUse">
        <circle cx="3" cy="3" r="1.4" />
      </pattern>
    </defs>
  );
}
