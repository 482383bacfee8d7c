import { useMemo } from 'preact/hooks';
import { PAGE_FORMATS } from '../../parts/language.js';
import { useWidth } from '../../parts/use-width.js';
import type { MapFacts, PlacedSite } from './map-facts.js';
import { fitMap, type MapPoint, placeLabels } from './map-layout.js';
import { MapLegend, ROUTE_DASHES, SilentMark, SiteMark, StartMark } from './map-marks.js';
import { howUrgent, whoComes } from './map-sentences.js';
import { middleOf, projectAround } from './project-places.js';
import { MAP_WORDS } from '../words/words.js';

interface MapProps {
  facts: MapFacts;
  now: Date;
}

const LINE = 18;
const LETTER = 8.2;
const LONGEST_NAME = 26;

interface Drawn {
  size: { width: number; height: number };
  sites: (PlacedSite & { mark: MapPoint; lines: string[]; label: MapPoint | null })[];
  starts: { technician: string; mark: MapPoint; label: MapPoint | null }[];
  /** Each way as the points that it goes by. */
  routes: { technician: string; points: MapPoint[]; dash: string }[];
  scale: { km: number; length: number };
}

/** All that is drawn, at its place. */
function drawn({ placed, starts: all }: MapFacts, now: Date, width: number): Drawn {
  const size = { width, height: Math.round(Math.min(620, Math.max(280, width * 0.6))) };
  const starts = all.flatMap(({ at, ...one }) => (at === null ? [] : [{ ...one, at }]));
  const places = [...placed, ...starts].map(({ at }) => at);
  const fitted = fitMap(projectAround(middleOf(places), places), size);
  const marks = fitted.points;
  const written = [
    ...placed.map((one) => [shortName(one.site.name), ...[howUrgent(one, now) ?? []].flat()]),
    ...starts.map(({ technician }) => [shortName(technician)]),
  ];
  const wanted = written.map((lines, i) => ({
    ...(marks[i] ?? NOWHERE),
    width: Math.max(...lines.map((line) => [...line].length)) * LETTER,
    height: lines.length * LINE,
  }));
  const foot = { x: 0, y: size.height - 40, width: fitted.scale.length + 60, height: 40 };
  const compass = { x: size.width - 40, y: 0, width: 40, height: 56 };
  const labels = placeLabels(wanted, marks, [foot, compass], size);
  const markOf = new Map(placed.map(({ site }, i) => [site.id, marks[i] ?? NOWHERE]));
  return {
    size,
    scale: fitted.scale,
    sites: placed.map((one, i) => ({
      ...one,
      mark: marks[i] ?? NOWHERE,
      lines: written[i] ?? [],
      label: labels[i] ?? null,
    })),
    starts: starts.map(({ technician }, i) => ({
      technician,
      mark: marks[placed.length + i] ?? NOWHERE,
      label: labels[placed.length + i] ?? null,
    })),
    routes: starts
      .map(({ technician, goesTo }, i) => ({
        technician,
        points: [
          marks[placed.length + i] ?? NOWHERE,
          ...goesTo.flatMap(({ site }) => markOf.get(site.id) ?? []),
        ],
      }))
      .filter(({ points }) => points.length > 1)
      .map((route, i) => ({ ...route, dash: ROUTE_DASHES[i % ROUTE_DASHES.length] ?? '' })),
  };
}

const NOWHERE: MapPoint = { x: 0, y: 0 };

function shortName(name: string): string {
  const letters = [...name];
  return letters.length <= LONGEST_NAME ? name : `${letters.slice(0, LONGEST_NAME).join('')}…`;
}

/** The map itself: what it says is in the tables below it too. */
export function MapDrawing({ facts, now }: MapProps) {
  const { ref, width } = useWidth();
  const map = useMemo(() => drawn(facts, now, width), [facts, now.getTime(), width]);
  const { size, sites, starts, routes, scale } = map;
  const without = [...sites, ...starts].filter(({ label }) => label === null).length;
  return (
    <div class="map" ref={ref}>
      <svg
        width={size.width}
        height={size.height}
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="group"
        aria-label={MAP_WORDS.drawing(sites.length, PAGE_FORMATS.figure(scale.km, 1))}
      >
        {routes.map((route) => (
          <Route key={route.technician} {...route} />
        ))}
        {starts.map(({ technician, mark, label }) => (
          <g key={technician}>
            <StartMark {...mark} />
            <Lines at={label} lines={[shortName(technician)]} />
          </g>
        ))}
        {/* What is due first lies on top. */}
        {[...sites].reverse().map((one) => (
          <SiteOnMap key={one.site.id} {...one} now={now} />
        ))}
        <Scale {...scale} y={size.height - 14} />
        <g class="map-north" aria-hidden="true" transform={`translate(${size.width - 20} 8)`}>
          <path d="M 0 0 L 7 20 L 0 15 L -7 20 Z" />
          <text x="0" y="38" text-anchor="middle">
            {MAP_WORDS.north}
          </text>
        </g>
      </svg>
      <MapLegend routes={routes} />
      {without > 0 && <p class="hint">{MAP_WORDS.withoutName(without)}</p>}
    </div>
  );
}

function SiteOnMap({ now, ...one }: Drawn['sites'][number] & { now: Date }) {
  const { site, tickets, mark, label, lines } = one;
  const isSilent = tickets.length > 0;
  const said = [site.name, howUrgent(one, now) ?? MAP_WORDS.nothingSilent, whoComes(one)];
  return (
    <g>
      <a href={`/desk/sites/${site.id}`} aria-label={said.filter(Boolean).join('; ')}>
        {isSilent ? <SilentMark {...mark} /> : <SiteMark {...mark} />}
      </a>
      <Lines at={label} lines={lines} isStrong={isSilent} />
    </g>
  );
}

interface LinesProps {
  at: MapPoint | null;
  lines: readonly string[];
  isStrong?: boolean;
}

function Lines({ at, lines, isStrong = false }: LinesProps) {
  if (at === null) return null;
  return (
    <text class={isStrong ? 'map-label strong' : 'map-label'} aria-hidden="true">
      {lines.map((line, i) => (
        <tspan key={i} x={at.x} y={at.y + 14 + i * LINE}>
          {line}
        </tspan>
      ))}
    </text>
  );
}

/** From the start point to each site in turn, an arrow amid each way. */
function Route({ points, dash }: Drawn['routes'][number]) {
  const ways = points.slice(1).map((to, i) => ({ from: points[i] ?? to, to }));
  return (
    <g class="map-route" aria-hidden="true">
      {ways.map(({ from, to }, i) => {
        const turn = (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
        const [x, y] = [(from.x + to.x) / 2, (from.y + to.y) / 2];
        return (
          <g key={i}>
            <line x1={from.x} y1={from.y} x2={to.x} y2={to.y} stroke-dasharray={dash} />
            <path
              d="M 7 0 L -5 -5 L -5 5 Z"
              transform={`translate(${x} ${y}) rotate(${turn.toFixed(1)})`}
            />
          </g>
        );
      })}
    </g>
  );
}

function Scale({ km, length, y }: { km: number; length: number; y: number }) {
  return (
    <g class="map-scale" aria-hidden="true" transform={`translate(10 ${y})`}>
      <path d={`M 0 -7 V 0 H ${length} V -7`} />
      <text x="4" y="-9">
        {MAP_WORDS.km(PAGE_FORMATS.figure(km, 1))}
      </text>
    </g>
  );
}
