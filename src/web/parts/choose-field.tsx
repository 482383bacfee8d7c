import { useId } from 'preact/hooks';
import { FieldComplaint } from './text-field.js';

interface ChooseFieldProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  choices: readonly { value: string; words: string }[];
  error?: string | undefined;
}

/** One of several to choose, with what is wrong read out with it. */
export function ChooseField({ label, value, onValue, choices, error }: ChooseFieldProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={error && `${id}-error`}
        aria-invalid={error ? 'true' : undefined}
        data-wrong={error !== undefined}
        onChange={(event) => onValue(event.currentTarget.value)}
      >
        {choices.map((one) => (
          <option key={one.value} value={one.value}>
            {one.words}
          </option>
        ))}
      </select>
      <FieldComplaint id={`${id}-error`} reason={error} />
    </div>
  );
}

interface TickFieldProps {
  label: string;
  value: boolean;
  onValue: (value: boolean) => void;
}

export function TickField({ label, value, onValue }: TickFieldProps) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={value}
        onChange={(event) => onValue(event.currentTarget.checked)}
      />{' '}
      {label}
    </label>
  );
}

interface TicksFieldProps {
  legend: string;
  choices: readonly { id: string; name: string }[];
  chosen: readonly string[];
  onChosen: (chosen: string[]) => void;
  error?: string | undefined;
}

/** Any of several to tick. */
export function TicksField({ legend, choices, chosen, onChosen, error }: TicksFieldProps) {
  const id = useId();
  return (
    <fieldset
      tabIndex={-1}
      aria-describedby={error && `${id}-error`}
      data-wrong={error !== undefined}
    >
      <legend>{legend}</legend>
      {choices.map((one) => (
        <TickField
          key={one.id}
          label={one.name}
          value={chosen.includes(one.id)}
          onValue={(isTicked) =>
            onChosen(isTicked ? [...chosen, one.id] : chosen.filter((other) => other !== one.id))
          }
        />
      ))}
      <FieldComplaint id={`${id}-error`} reason={error} />
    </fieldset>
  );
}
