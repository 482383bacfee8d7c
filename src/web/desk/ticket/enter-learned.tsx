import type { LearnedFormProps } from './enter-form.js';
import { OffEntry } from './off-entry.js';
import { LookEntry } from './look-entry.js';
import { ReadingEntry } from './reading-entry.js';
import type { TicketViewProps } from './ticket-view.js';
import { ToldBeside } from './told-beside.js';
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
  if (state === 'closed' || state === 'merged') return null;
  const formOf = (onEntered: (what: string) => void): LearnedFormProps => ({
    ...props,
    teller,
    onTeller: setTeller,
    onEntered: (what) => {
      onEntered(what);
      settleTeller();
      props.onChanged();
    },
  });
  return (
    <section>
      <h2>{EVIDENCE_WORDS.enter}</h2>
      <ToldBeside>
        {(onEntered) => (
          <details open={isReading}>
            <summary>{EVIDENCE_WORDS.enterReading}</summary>
            <ReadingEntry {...formOf(onEntered)} />
          </details>
        )}
      </ToldBeside>
      <ToldBeside>
        {(onEntered) => (
          <details open={isLook}>
            <summary>{EVIDENCE_WORDS.enterLook}</summary>
            <LookEntry {...formOf(onEntered)} />
          </details>
        )}
      </ToldBeside>
      <ToldBeside>
        {(onEntered) => (
          <details open={isOff}>
            <summary>{EVIDENCE_WORDS.enterOff}</summary>
            <OffEntry {...formOf(onEntered)} />
          </details>
        )}
      </ToldBeside>
    </section>
  );
}
