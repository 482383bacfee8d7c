import { useState } from 'preact/hooks';
import { DRAFT, keepIn } from '../parts/kept.js';
import { useService } from '../parts/service-context.js';
import { useDraftIn } from '../parts/use-draft.js';

const kept = keepIn(() => sessionStorage);

/** What is typed on a form that is not sent yet; a reload does not lose it, and signing out forgets it. */
export function useDraft<Draft extends object>(purpose: string, empty: Draft) {
  return useDraftIn(kept, useDraftName(purpose), empty);
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
