import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { EVIDENCE_WORDS } from '../words/words.js';

interface ToldBesideProps {
  /** A form, which says what was entered once the service has it. */
  children: (onEntered: (what: string) => void) => ComponentChildren;
}

/**
 * A form with what was entered of it beside it, until something else of it is sent: answers come in any order, and none of them
 * speaks for another form. It outlives the form, which may go with what it entered.
 */
export function ToldBeside({ children }: ToldBesideProps) {
  const [entered, setEntered] = useState('');
  return (
    <div onSubmit={() => setEntered('')}>
      {children(setEntered)}
      <p role="status">{entered !== '' && EVIDENCE_WORDS.entered(entered)}</p>
    </div>
  );
}
