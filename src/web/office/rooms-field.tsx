import { useId } from 'preact/hooks';
import type { TriedWords } from '#app/words/index.js';
import { type Marks, roomKey } from './marks.js';
import { groupRooms, nameOf } from './room-groups.js';
import { FieldComplaint } from '../parts/text-field.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';
import type { PassRoom } from '../parts/wire.js';

interface RoomsFieldProps {
  rooms: PassRoom[];
  marks: Marks;
  words: TriedWords;
  onTouch: (key: string) => void;
  error: string | undefined;
}

/** Every room to be touched: once, twice and a third time for nothing. */
export function RoomsField({ rooms, marks, words, onTouch, error }: RoomsFieldProps) {
  const id = useId();
  return (
    <fieldset aria-describedby={`${id}-hint ${error ? `${id}-error` : ''}`}>
      <legend>{OFFICE_WORDS.report.whichRooms}</legend>
      <p class="hint" id={`${id}-hint`}>
        {OFFICE_WORDS.report.touch(words)}
      </p>
      <FieldComplaint id={`${id}-error`} reason={error} />
      {groupRooms(rooms, PAGE_WORDS).map(({ title, rooms: together }, index) => (
        <div key={index} role="group" aria-label={title || OFFICE_WORDS.report.rooms}>
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
                  <span class="room-name">{nameOf(room, PAGE_WORDS)}</span>{' '}
                  <span class="room-mark">
                    {mark === undefined ? OFFICE_WORDS.report.notSaid : words[mark]}
                  </span>
                </button>
              );
            })}
          </div>
        </div>
      ))}
    </fieldset>
  );
}
