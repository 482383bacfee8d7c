import { useId } from 'preact/hooks';
import { FUNCTION_NAMES, FUNCTION_WORDS } from '../parts/function-words.js';
import { FieldComplaint } from '../parts/text-field.js';
import type { ToldFunction } from '../parts/wire.js';

interface TriedFieldProps {
  value: ToldFunction | undefined;
  onValue: (value: ToldFunction) => void;
  error: string | undefined;
}

/** What was tried when the rooms were silent. */
export function TriedField({ value, onValue, error }: TriedFieldProps) {
  const id = useId();
  return (
    <fieldset aria-describedby={error && `${id}-error`}>
      <legend>What did you try?</legend>
      <FieldComplaint id={`${id}-error`} reason={error} />
      <div class="choices">
        {FUNCTION_NAMES.map((name) => (
          <label key={name} class="choice">
            <input
              type="radio"
              name={id}
              checked={value === name}
              data-wrong={error !== undefined}
              onChange={() => onValue(name)}
            />
            <span>{FUNCTION_WORDS[name].tried}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
