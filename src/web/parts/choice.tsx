import { useId } from 'preact/hooks';
import { FieldComplaint } from './text-field.js';

interface ChoiceProps<Value extends string> {
  legend: string;
  names: Readonly<Record<string, string>>;
  of: readonly Value[];
  value: Value | undefined;
  onValue: (value: Value) => void;
  error?: string | undefined;
}

/** One of a few, each as big as a thumb. */
export function Choice<Value extends string>({
  legend,
  names,
  of,
  value,
  onValue,
  error,
}: ChoiceProps<Value>) {
  const id = useId();
  return (
    <fieldset aria-describedby={error && `${id}-error`}>
      <legend>{legend}</legend>
      <FieldComplaint id={`${id}-error`} reason={error} />
      <div class="choices">
        {of.map((one) => (
          <label key={one} class="choice">
            <input
              type="radio"
              name={id}
              checked={one === value}
              data-wrong={error !== undefined}
              onChange={() => onValue(one)}
            />
            <span>{names[one]}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
