import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { FIELD_WORDS } from './field-words.js';
import type { EntrySubject } from './outbox.js';
import type { ToEnter } from './outbox-keeper.js';
import { useField } from './use-field.js';

export interface EnteringOf {
  /** Keeps what was entered, and then goes on; what could not be kept is said, and nothing is gone. */
  enter: (entered: readonly ToEnter[], then?: () => void) => void;
  failure: string | undefined;
}

/** Entering about one thing. Where the address names a refused entry, what is entered takes its place. */
export function useEntering(subject: EntrySubject): EnteringOf {
  const { keeper, entries } = useField();
  const { query } = useLocation();
  const [failure, setFailure] = useState<string>();
  const instead = entries.find(
    ({ order, state }) => state === 'refused' && String(order) === query['instead'],
  );
  const keep = async (entered: readonly ToEnter[]) => {
    const [first, ...more] = entered;
    if (instead === undefined || first === undefined) return keeper.enter(subject, entered);
    await keeper.change(instead, first);
    await keeper.enter(subject, more);
  };
  return {
    failure,
    enter: (entered, then) => {
      setFailure(undefined);
      keep(entered).then(then, () => setFailure(FIELD_WORDS.notKept));
    },
  };
}
