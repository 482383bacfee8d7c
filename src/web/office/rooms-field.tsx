import { useId } from 'preact/hooks';
import { type RoomMark, type Marks, roomKey } from './marks.js';
import { groupRooms, nameOf } from './room-groups.js';
import { FieldComplaint } from '../parts/text-field.js';
import type { PassRoom } from '../parts/wire.js';

interface RoomsFieldProps {
  rooms: PassRoom[];
  marks: Marks;
  words: Record<RoomMark, string>;
  onTouch: (key: string) => void;
  error: string | undefined;
}

/** Every room to be touched: once, twice and a third time for nothing. */
export function RoomsField({ rooms, marks, words, onTouch, error }: RoomsFieldProps) {
  const id = useId();
  return (
    <fieldset aria-describedby={`${id}-hint ${error ? `${id}-error` : ''}`}>
      <legend>Which rooms?</legend>
      <p class="hint" id={`${id}-hint`}>
        Touch a room once: {words.fails}. Twice: {words.works}. A third time: not said. Rooms that
        you know were {words.works} help as much as those that were {words.fails}.
      </p>
      <FieldComplaint id={`${id}-error`} reason={error} />
      {groupRooms(rooms).map(({ title, rooms: together }, index) => (
        <div key={index} role="group" aria-label={title || 'Rooms'}>
          {title && <h3>{title}</h3>}
          <div class="rooms">
            {together.map((room) => {
              const key = roomKey(room);
              const mark = marks[key];
              return (
                <button
                  key={key}
                  type="button"
                  class={`room ${mark ?? 'unsaid'}`}
                  data-wrong={error !== undefined}
                  onClick={() => onTouch(key)}
                >
                  <span class="room-name">{nameOf(room)}</span>{' '}
                  <span class="room-mark">{mark === undefined ? 'not said' : words[mark]}</span>
                </button>
              );
            })}
          </div>
        </div>
      ))}
    </fieldset>
  );
}
