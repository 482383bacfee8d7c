import { useEffect, useId, useRef } from 'preact/hooks';

interface TextFieldProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  hint?: string;
  /** Why the value will not do. */
  error?: string | undefined;
  autocomplete: string;
  /** Shows dots for what is typed. */
  isHidden?: boolean;
  /** What is typed, where that is no text. */
  type?: 'text' | 'date' | 'time' | 'datetime-local';
  maxLength?: number;
  /** Which keys a phone shows. */
  inputMode?: 'decimal';
  /** Where whoever opens the page begins to type. */
  isFirst?: boolean;
}

/** Years have four digits: by keys a browser takes six, of which nothing can be reckoned. */
const TYPES = {
  text: { type: 'text' },
  date: { type: 'date', max: '9999-12-31' },
  time: { type: 'time' },
  'datetime-local': { type: 'datetime-local', max: '9999-12-31T23:59' },
  password: { type: 'password' },
} as const;

/** A line to type in, with what is asked, what helps and what is wrong read out together. */
export function TextField({ label, value, onValue, hint, error, ...rest }: TextFieldProps) {
  const id = useId();
  const described = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(' ');
  const { autocomplete, isHidden = false, type = 'text', isFirst = false } = rest;
  const { maxLength, inputMode } = rest;
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (isFirst) input.current?.focus();
  }, [isFirst]);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      <input
        ref={input}
        id={id}
        {...TYPES[isHidden ? 'password' : type]}
        value={value}
        autocomplete={autocomplete}
        maxLength={maxLength}
        inputMode={inputMode}
        aria-describedby={described || undefined}
        aria-invalid={error ? 'true' : undefined}
        data-wrong={error !== undefined}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      <FieldComplaint id={`${id}-error`} reason={error} />
    </div>
  );
}

interface LongTextProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  error?: string | undefined;
  maxLength?: number;
}

/** Several lines to type in. */
export function LongText({ label, value, onValue, error, maxLength = 2000 }: LongTextProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea
        id={id}
        rows={4}
        maxLength={maxLength}
        value={value}
        aria-describedby={error && `${id}-error`}
        aria-invalid={error ? 'true' : undefined}
        data-wrong={error !== undefined}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      <FieldComplaint id={`${id}-error`} reason={error} />
    </div>
  );
}

export function FieldComplaint({ id, reason }: { id: string; reason: string | undefined }) {
  return reason ? (
    <p class="error" id={id}>
      {reason}
    </p>
  ) : null;
}
