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
  const { enterReading, enterLook, enterOff } = EVIDENCE_WORDS;
  const entries = [
    { summary: enterReading, isBegun: useIsBegun(`reading of ${id}`), Entry: ReadingEntry },
    { summary: enterLook, isBegun: useIsBegun(`look of ${id}`), Entry: LookEntry },
    { summary: enterOff, isBegun: useIsBegun(`off of ${id}`), Entry: OffEntry },
  ];
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
      {entries.map(({ summary, isBegun, Entry }) => (
        <ToldBeside key={summary}>
          {(onEntered) => (
            <details open={isBegun}>
              <summary>{summary}</summary>
              <Entry {...formOf(onEntered)} />
            </details>
          )}
        </ToldBeside>
      ))}
    </section>
  );
}
