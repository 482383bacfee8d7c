import { useRef, useState } from 'preact/hooks';
import type { Kept } from './kept.js';

interface UsedDraft<Draft> {
  draft: Draft;
  give: (more: Partial<Draft>) => void;
  /** What is to be entered next, once this was sent: it is kept no longer. What was typed meanwhile stays as it is. */
  settle: (next?: Draft) => void;
}

/** What is typed on a form that is not sent yet, kept under a name; a reload does not lose it. */
export function useDraftIn<Draft extends object>(
  kept: Kept,
  name: string,
  empty: Draft,
): UsedDraft<Draft> {
  const open = () => ({ name, draft: { ...empty, ...kept.read<Partial<Draft>>(name) } });
  const [typed, setTyped] = useState(open);
  // Of another subject, where the page went on to one.
  const draft = typed.name === name ? typed.draft : open().draft;
  const latest = useRef(draft);
  latest.current = draft;
  const show = (next: Draft) => setTyped({ name, draft: next });
  return {
    draft,
    give: (more) => {
      const next = { ...draft, ...more };
      kept.write(name, next);
      show(next);
    },
    settle: (next = empty) => {
      if (JSON.stringify(latest.current) !== JSON.stringify(draft)) return;
      kept.write(name, undefined);
      show(next);
    },
  };
}
