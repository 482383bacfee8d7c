import { DRAFT, keepIn } from '../parts/kept.js';
import { useDraftIn } from '../parts/use-draft.js';
import { useField } from './use-field.js';

// A phone ends what it does not show: what was typed outlives the tab, until whoever typed it signs out.
const kept = keepIn(() => localStorage);

/** What is typed on the phone and not entered yet. */
export function useFieldDraft<Draft extends object>(purpose: string, empty: Draft) {
  return useDraftIn(kept, `${DRAFT}${useField().person.id} ${purpose}`, empty);
}
