import { useId } from 'preact/hooks';

interface ChoiceProps<Value extends string> {
  legend: string;
  names: Readonly<Record<string, string>>;
  of: readonly Value[];
  value: Value;
  onValue: (value: Value) => void;
}

/** One of a few, each as big as a thumb. */
export function Choice<Value extends string>({
  legend,
  names,
  of,
  value,
  onValue,
}: ChoiceProps<Value>) {
  const id = useId();
  return (
    <fieldset>
      <legend>{legend}</legend>
      <div class="choices">
        {of.map((one) => (
          <label key={one} class="choice">
            <input type="radio" name={id} checked={one === value} onChange={() => onValue(one)} />
            <span>{names[one]}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
