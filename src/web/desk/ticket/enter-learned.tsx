import { useState } from 'preact/hooks';
import { OffEntry } from './off-entry.js';
import { LookEntry } from './look-entry.js';
import { ReadingEntry } from './reading-entry.js';
import type { TicketViewProps } from './ticket-view.js';
import { useTeller } from './told-by.js';
import { useIsBegun } from '../use-draft.js';
import { EVIDENCE_WORDS } from '../words/words.js';

/** Entering what somebody tells the desk: readings, looks, and what was heard while cable was off. */
export function EnterLearned(props: TicketViewProps) {
  const { state, id } = props.ticket;
  const { teller, setTeller, settleTeller } = useTeller(id);
  const isReading = useIsBegun(`reading of ${id}`);
  const isLook = useIsBegun(`look of ${id}`);
  const isOff = useIsBegun(`off of ${id}`);
  const [entered, setEntered] = useState('');
  if (state === 'closed' || state === 'merged') return null;
  const onEntered = (what: string) => {
    setEntered(what);
    settleTeller();
    props.onChanged();
  };
  const form = { ...props, teller, onTeller: setTeller, onEntered };
  return (
    <section>
      <h2>{EVIDENCE_WORDS.enter}</h2>
      <details open={isReading}>
        <summary>{EVIDENCE_WORDS.enterReading}</summary>
        <ReadingEntry {...form} />
      </details>
      <details open={isLook}>
        <summary>{EVIDENCE_WORDS.enterLook}</summary>
        <LookEntry {...form} />
      </details>
      <details open={isOff}>
        <summary>{EVIDENCE_WORDS.enterOff}</summary>
        <OffEntry {...form} />
      </details>
      <p role="status">{entered !== '' && EVIDENCE_WORDS.entered(entered)}</p>
    </section>
  );
}
