import { LEGEND, THICKNESS } from './drawing-words.js';
import { NodeMark } from './node-mark.js';

/** What the shapes mean. */
export function DrawingLegend({ hasChances }: { hasChances: boolean }) {
  return (
    <div class="legend">
      <ul>
        {LEGEND.filter(({ mark }) => hasChances || mark !== 'expected').map(({ mark, words }) => (
          <li key={mark}>
            <svg viewBox="-13 -13 26 26" width={22} height={22} aria-hidden="true">
              <NodeMark mark={mark} />
            </svg>
            {words}
          </li>
        ))}
      </ul>
      {hasChances && <p>{THICKNESS}</p>}
    </div>
  );
}
