import { useRef, useState } from 'preact/hooks';
import { DRAFT, keepIn } from '../parts/kept.js';
import { useService } from '../parts/service-context.js';

const kept = keepIn(() => sessionStorage);

export interface UsedDraft<Draft> {
  draft: Draft;
  give: (more: Partial<Draft>) => void;
  /** What is to be entered next, once this was sent: it is kept no longer. What was typed meanwhile stays as it is. */
  settle: (next?: Draft) => void;
}

/** What is typed on a form that is not sent yet; a reload does not lose it, and signing out forgets it. */
export function useDraft<Draft extends object>(purpose: string, empty: Draft): UsedDraft<Draft> {
  const name = useDraftName(purpose);
  const [typed, setTyped] = useState(() => open(name, empty));
  // Of another ticket, where the page went on to one.
  const draft = typed.name === name ? typed.draft : open(name, empty).draft;
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

/** Whether something was begun of it when the page opened: then it is open to be gone on with. */
export function useIsBegun(...purposes: string[]): boolean {
  const names = purposes.map(useDraftName);
  const [isBegun] = useState(() => names.some((name) => kept.read(name) !== undefined));
  return isBegun;
}

function useDraftName(purpose: string): string {
  return `${DRAFT}${useService().session.person.id} ${purpose}`;
}

function open<Draft extends object>(name: string, empty: Draft): { name: string; draft: Draft } {
  return { name, draft: { ...empty, ...kept.read<Partial<Draft>>(name) } };
}
