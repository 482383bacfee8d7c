import { useLocation } from 'preact-iso';
import { useRef, useState } from 'preact/hooks';
import { FIELD_WORDS } from './field-words.js';
import type { EntrySubject, OutboxEntry } from './outbox.js';
import type { ToEnter } from './outbox-keeper.js';
import { useField } from './use-field.js';

export interface EnteringOf {
  /** Keeps what was entered, and then goes on; what could not be kept is said, and nothing is gone. */
  enter: (entered: readonly ToEnter[], then?: () => void) => void;
  failure: string | undefined;
  /** The refused entry that is entered anew. */
  instead: OutboxEntry | undefined;
}

/** Entering about one thing. Where the address names a refused entry, what is entered takes its place. */
export function useEntering(subject: EntrySubject): EnteringOf {
  const { keeper, entries } = useField();
  const { query } = useLocation();
  const { keep, failure } = useKeeping();
  const instead = entries.find(
    ({ order, state }) => state === 'refused' && String(order) === query['instead'],
  );
  return {
    failure,
    instead,
    enter: (entered, then) => keep(() => keeper.enter(subject, entered, instead), then),
  };
}

/** Where a finding is mended; what it is entered in place of goes along. */
export function foundAddress(home: string, found: string, instead: string | undefined): string {
  const query = new URLSearchParams({ found, ...(instead !== undefined && { instead }) });
  return `${home}/found?${query}`;
}

interface Keeping {
  /** Nothing while something is being kept: the second touch of two comes before the page is drawn anew. */
  keep: (work: () => Promise<void>, then?: () => void) => void;
  failure: string | undefined;
}

/** Writing to the disk of the phone, which may be full. */
export function useKeeping(): Keeping {
  const [failure, setFailure] = useState<string>();
  const isKeeping = useRef(false);
  const doIt = async (work: () => Promise<void>, then?: () => void) => {
    isKeeping.current = true;
    setFailure(undefined);
    try {
      await work();
    } catch {
      setFailure(FIELD_WORDS.notKept);
      return;
    } finally {
      isKeeping.current = false;
    }
    then?.();
  };
  return { failure, keep: (work, then) => void (isKeeping.current || doIt(work, then)) };
}
