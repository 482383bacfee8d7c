import { useId, useRef } from 'preact/hooks';
import { PEN_BOX } from '#app/shared/pen-path.js';
import { PAGE_WORDS } from './language.js';
import { FieldComplaint } from './text-field.js';
import { beginStroke, moveOn, type PenPath } from './pen-strokes.js';

interface SignaturePadProps {
  value: PenPath;
  onValue: (drawn: PenPath) => void;
  error?: string | undefined;
}

/** Where somebody signs with a finger or a pen. Nobody has to: the name is typed beside it. */
export function SignaturePad({ value, onValue, error }: SignaturePadProps) {
  const id = useId();
  // Where the box was when the stroke began; null between strokes. What comes and goes above would break the stroke else.
  const drawnIn = useRef<DOMRect | null>(null);
  // Moves come faster than the page is drawn anew.
  const latest = useRef(value);
  latest.current = value;
  const draw = (event: PointerEvent, how: typeof moveOn) => {
    const box = drawnIn.current;
    if (box === null) return;
    const x = ((event.clientX - box.left) / box.width) * PEN_BOX.width;
    const y = ((event.clientY - box.top) / box.height) * PEN_BOX.height;
    latest.current = how(latest.current, x, y);
    onValue(latest.current);
  };
  const begin = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const pad = event.currentTarget as SVGSVGElement;
    pad.setPointerCapture(event.pointerId);
    drawnIn.current = pad.getBoundingClientRect();
    draw(event, beginStroke);
  };
  const end = () => {
    drawnIn.current = null;
  };
  const words = PAGE_WORDS.pen;
  return (
    <div class="field">
      <p class="pen-label">{words.label}</p>
      <svg
        class="pen"
        viewBox={`0 0 ${PEN_BOX.width} ${PEN_BOX.height}`}
        role="img"
        aria-label={words.box(value !== '')}
        aria-describedby={error && `${id}-error`}
        tabIndex={error === undefined ? undefined : -1}
        data-wrong={error !== undefined}
        onPointerDown={begin}
        onPointerMove={(event) => draw(event, moveOn)}
        onPointerUp={end}
        onPointerCancel={end}
      >
        <path d="M30 160H570" class="pen-line" />
        <path d={value} class="pen-stroke" />
      </svg>
      <FieldComplaint id={`${id}-error`} reason={error} />
      <button type="button" aria-disabled={value === ''} onClick={() => onValue('')}>
        {words.again}
      </button>
    </div>
  );
}
