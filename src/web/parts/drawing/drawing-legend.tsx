import { useState } from 'preact/hooks';
import type { DrawnCable } from './drawn-facts.js';
import { groupLetters } from './drawn-facts.js';
import { DRAWING_WORDS, LEGEND } from './drawing-words.js';
import { NodeMark } from './node-mark.js';

interface DrawingLegendProps {
  hasChances: boolean;
  hasDoubts: boolean;
}

/** What the shapes mean. */
export function DrawingLegend({ hasChances, hasDoubts }: DrawingLegendProps) {
  const isDrawn = (mark: string) =>
    (hasChances || mark !== 'expected') && (hasDoubts || mark !== 'doubted');
  return (
    <div class="legend">
      <ul>
        {LEGEND.filter(({ mark }) => isDrawn(mark)).map(({ mark, words }) => (
          <li key={mark}>
            <svg viewBox="-13 -13 26 26" width={22} height={22} aria-hidden="true">
              <NodeMark mark={mark} />
            </svg>
            {words}
          </li>
        ))}
      </ul>
      {hasChances && <p>{DRAWING_WORDS.thickness}</p>}
    </div>
  );
}

export interface RungGroup {
  letters: ReadonlyMap<string, string>;
  /** Whose rooms are ringed. */
  group: string | undefined;
  ring: (group: string) => void;
}

export function useRungGroup(cables: readonly DrawnCable[]): RungGroup {
  const [group, setGroup] = useState<string>();
  return {
    letters: groupLetters(cables),
    group,
    ring: (name) => setGroup(name === group ? undefined : name),
  };
}

/** Which letter is which group; a touch rings its rooms. */
export function GroupLegend({ letters, group, ring }: RungGroup) {
  if (letters.size === 0) return null;
  return (
    <p class="buttons groups">
      <span>{DRAWING_WORDS.groups}</span>
      {[...letters].map(([name, letter]) => (
        <button
          key={name}
          type="button"
          class="small"
          aria-pressed={group === name}
          onClick={() => ring(name)}
        >
          <b>{letter}</b> {name}
          <span class="unseen">{DRAWING_WORDS.ringRooms}</span>
        </button>
      ))}
    </p>
  );
}
