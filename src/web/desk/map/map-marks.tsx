import type { ComponentChildren } from 'preact';
import type { MapPoint } from './map-layout.js';
import { MAP_WORDS } from '../words/words.js';

/** Ways are told apart by these, never by colour. */
export const ROUTE_DASHES = ['', '9 5', '2 5', '12 4 2 4'] as const;

/** Something is silent there. */
export function SilentMark({ x, y }: MapPoint) {
  return (
    <g class="map-silent" transform={`translate(${x} ${y})`}>
      <rect x="-9" y="-9" width="18" height="18" />
      <path d="M -5 -5 L 5 5 M 5 -5 L -5 5" />
    </g>
  );
}

export function SiteMark({ x, y }: MapPoint) {
  return <circle class="map-site" cx={x} cy={y} r="6" />;
}

export function StartMark({ x, y }: MapPoint) {
  return <path class="map-start" d="M 0 -9 L 9 8 L -9 8 Z" transform={`translate(${x} ${y})`} />;
}

/** What the marks and the lines mean. */
export function MapLegend({ routes }: { routes: readonly { technician: string; dash: string }[] }) {
  const middle = { x: 12, y: 12 };
  const { silent, quiet, start, route } = MAP_WORDS.legend;
  return (
    <ul class="map-legend">
      <li>
        <Sample>
          <SilentMark {...middle} />
        </Sample>
        {silent}
      </li>
      <li>
        <Sample>
          <SiteMark {...middle} />
        </Sample>
        {quiet}
      </li>
      <li>
        <Sample>
          <StartMark {...middle} />
        </Sample>
        {start}
      </li>
      {routes.map(({ technician, dash }) => (
        <li key={technician}>
          <svg width="48" height="24" aria-hidden="true" class="map-route">
            <line x1="0" y1="12" x2="48" y2="12" stroke-dasharray={dash} />
          </svg>
          {route(technician)}
        </li>
      ))}
    </ul>
  );
}

function Sample({ children }: { children: ComponentChildren }) {
  return (
    <svg width="24" height="24" aria-hidden="true">
      {children}
    </svg>
  );
}
