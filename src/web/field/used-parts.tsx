import { useState } from 'preact/hooks';
import { TextField } from '../parts/text-field.js';
import { FIELD_WORDS } from './field-words.js';

export interface UsedPart {
  name: string;
  quantity: number;
}

interface UsedPartsProps {
  parts: readonly UsedPart[];
  onParts: (parts: readonly UsedPart[]) => void;
  error: string | undefined;
}

/** Parts that were used, counted by touch. */
export function UsedParts({ parts, onParts, error }: UsedPartsProps) {
  const [name, setName] = useState('');
  const count = (part: UsedPart, by: number) =>
    onParts(
      parts
        .map((one) => (one === part ? { ...one, quantity: one.quantity + by } : one))
        .filter(({ quantity }) => quantity > 0),
    );
  const add = () => {
    if (name.trim() === '') return;
    onParts([...parts, { name: name.trim(), quantity: 1 }]);
    setName('');
  };
  return (
    <div>
      <h2>{FIELD_WORDS.partsUsed}</h2>
      <ul class="plain">
        {parts.map((part) => (
          <li key={part.name} class="part">
            <span>
              {part.quantity} × {part.name}
            </span>
            <span class="buttons">
              <button
                type="button"
                aria-label={FIELD_WORDS.oneMore(part.name)}
                onClick={() => count(part, 1)}
              >
                +
              </button>
              <button
                type="button"
                aria-label={FIELD_WORDS.oneLess(part.name)}
                onClick={() => count(part, -1)}
              >
                −
              </button>
            </span>
          </li>
        ))}
      </ul>
      <TextField
        label={FIELD_WORDS.anotherPart}
        value={name}
        onValue={setName}
        autocomplete="off"
        maxLength={200}
        error={error}
      />
      <button type="button" onClick={add}>
        {FIELD_WORDS.addPart}
      </button>
    </div>
  );
}
