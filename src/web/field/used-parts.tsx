import { TextField } from '../parts/text-field.js';
import { amountTyped } from '../parts/typed-number.js';
import { FIELD_WORDS } from './field-words.js';

export interface UsedPart {
  name: string;
  quantity: number;
}

/** A part as it is typed, before it is added. */
export interface TypedPart {
  name: string;
  /** Pieces or metres, such as 3.5 */
  quantity: string;
}

export const NO_PART: TypedPart = { name: '', quantity: '1' };

/** What was typed and not added is used all the same; undefined: that is no number. */
export function withTyped(
  parts: readonly UsedPart[],
  typed: TypedPart,
): readonly UsedPart[] | undefined {
  const name = typed.name.trim();
  if (name === '') return parts;
  const quantity = amountTyped(typed.quantity) ?? undefined;
  return quantity === undefined ? undefined : [...parts, { name, quantity }];
}

interface UsedPartsProps {
  parts: readonly UsedPart[];
  typed: TypedPart;
  onGive: (more: { parts?: readonly UsedPart[]; typed?: TypedPart }) => void;
  error: string | undefined;
}

/** Parts that were used, counted by touch, or with a number as for metres of cable. */
export function UsedParts(props: UsedPartsProps) {
  const { parts, onGive } = props;
  const count = (part: UsedPart, by: number) =>
    onGive({
      parts: parts
        .map((one) => (one === part ? { ...one, quantity: one.quantity + by } : one))
        .filter(({ quantity }) => quantity > 0),
    });
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
      <AddPart {...props} />
    </div>
  );
}

function AddPart({ parts, typed, onGive, error }: UsedPartsProps) {
  const added = withTyped(parts, typed);
  const add = () => {
    if (typed.name.trim() === '' || added === undefined) return;
    onGive({ parts: added, typed: NO_PART });
  };
  return (
    <>
      <TextField
        label={FIELD_WORDS.anotherPart}
        value={typed.name}
        onValue={(name) => onGive({ typed: { ...typed, name } })}
        autocomplete="off"
        maxLength={200}
        error={error}
      />
      <TextField
        label={FIELD_WORDS.partQuantity}
        value={typed.quantity}
        onValue={(quantity) => onGive({ typed: { ...typed, quantity } })}
        autocomplete="off"
        inputMode="decimal"
        maxLength={8}
        error={added === undefined ? FIELD_WORDS.partNumber : undefined}
      />
      <p>
        <button type="button" aria-disabled={added === undefined} onClick={add}>
          {FIELD_WORDS.addPart}
        </button>
      </p>
    </>
  );
}
