import { useId } from 'preact/hooks';
import type { TriedWords } from '#app/words/index.js';
import { type Marks, nextOfAll, roomKey } from './marks.js';
import { calledTogether, groupRooms, nameOf } from './room-groups.js';
import { FieldComplaint } from '../parts/text-field.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';
import type { PassRoom } from '../parts/wire.js';

interface RoomsFieldProps {
  rooms: PassRoom[];
  marks: Marks;
  words: TriedWords;
  onTouch: (key: string) => void;
  onTouchAll: (rooms: PassRoom[]) => void;
  error: string | undefined;
}

/** Every room to be touched: once, twice and a third time for nothing. */
export function RoomsField(props: RoomsFieldProps) {
  const { rooms, marks, words, onTouch, error } = props;
  const id = useId();
  const groups = groupRooms(rooms, PAGE_WORDS);
  return (
    <fieldset aria-describedby={`${id}-hint ${error ? `${id}-error` : ''}`}>
      <legend>{OFFICE_WORDS.report.whichRooms}</legend>
      <p class="hint" id={`${id}-hint`}>
        {OFFICE_WORDS.report.touch(words)}
      </p>
      <FieldComplaint id={`${id}-error`} reason={error} />
      <div class="wholes">
        <TouchAll {...props} title={OFFICE_WORDS.report.everywhere} of={rooms} />
        {calledTogether(rooms).map(({ title, rooms: together }) => (
          <TouchAll key={title} {...props} title={title} of={together} />
        ))}
      </div>
      {groups.map(({ title, rooms: together }, index) => (
        <div key={index} role="group" aria-label={title || OFFICE_WORDS.report.rooms}>
          {title && (
            <div class="whole">
              <h3>{title}</h3>
              <TouchAll {...props} title={title} isTitleUnseen of={together} />
            </div>
          )}
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

interface TouchAllProps extends RoomsFieldProps {
  title: string;
  /** The title stands beside it already. */
  isTitleUnseen?: boolean;
  of: PassRoom[];
}

/** One touch for many rooms, saying what it will do. */
function TouchAll({ marks, words, onTouchAll, title, isTitleUnseen = false, of }: TouchAllProps) {
  const next = nextOfAll(marks, of);
  const { all, clear } = OFFICE_WORDS.report;
  return (
    <button type="button" class="small" onClick={() => onTouchAll(of)}>
      <span class={isTitleUnseen ? 'unseen' : undefined}>{title}: </span>
      {next === undefined ? clear : all(words[next])}
    </button>
  );
}
