import type { ComponentChildren } from 'preact';
import type { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import type { TicketViewProps } from './ticket-view.js';
import type { Teller } from './told-by.js';
import { EVIDENCE_WORDS } from '../words/words.js';

export interface LearnedFormProps extends TicketViewProps {
  teller: Teller;
  onTeller: (teller: Teller) => void;
  /** Told what was entered. */
  onEntered: (what: string) => void;
}

interface EnterFormProps {
  isSending: boolean;
  failure: Failure | undefined;
  /** The fields that show their own reasons. */
  fields: readonly string[];
  onSubmit: () => void;
  button?: string;
  children: ComponentChildren;
}

/** The frame of these forms: the first field that is wrong is gone to. */
export function EnterForm({ failure, fields, onSubmit, children, ...rest }: EnterFormProps) {
  const { isSending, button = EVIDENCE_WORDS.enterButton } = rest;
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const submit = (event: Event) => {
    event.preventDefault();
    onSubmit();
  };
  return (
    <form onSubmit={submit} noValidate ref={form}>
      {children}
      <FailureLine failure={failure} fields={fields} />
      <button type="submit" class="lead" aria-disabled={isSending}>
        {button}
      </button>
    </form>
  );
}
