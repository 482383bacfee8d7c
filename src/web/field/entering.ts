import { useLocation } from 'preact-iso';
import { useMemo, useRef, useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { FIELD_WORDS } from './field-words.js';
import { OneTouch } from './one-touch.js';
import type { EntrySubject, OutboxEntry } from './outbox.js';
import type { ToEnter } from './outbox-keeper.js';
import { useField } from './use-field.js';

export interface EnteringOf {
  /** Keeps what was entered, and then goes on; what could not be kept is said, and nothing is gone. */
  enter: (entered: readonly ToEnter[], then?: () => void) => void;
  failure: string | undefined;
  /** The refused entry that is entered anew. */
  instead: OutboxEntry | undefined;
  /** Why the service did not take that one. */
  refused: Failure | undefined;
  /** The first of what is wrong with these fields of it, in a sentence. */
  wrong: (...fields: string[]) => string | undefined;
}

/**
 * Entering about one thing. Where the address names a refused entry, what is entered takes its place; where it names none, that of
 * `refusedBefore`.
 */
export function useEntering(subject: EntrySubject, refusedBefore?: OutboxEntry): EnteringOf {
  const { keeper, entries } = useField();
  const { query } = useLocation();
  const { keep, failure } = useKeeping();
  const named = entries.find(
    ({ order, state }) => state === 'refused' && String(order) === query['instead'],
  );
  const instead = named ?? refusedBefore;
  const refusal = instead?.refusal;
  const refused = useMemo(
    () => refusal && new Failure(refusal.status, refusal.message, refusal.errors),
    [refusal],
  );
  return {
    failure,
    instead,
    refused: refused ?? undefined,
    wrong: (...fields) =>
      fields.map((field) => refused?.sentenceFor(field)).find((one) => one !== undefined),
    enter: (entered, then) => keep(() => keeper.enter(subject, entered, instead), then),
  };
}

/** Where a finding is mended; what it is entered in place of goes along. */
export function foundAddress(home: string, found: string, instead: string | undefined): string {
  const query = new URLSearchParams({ found, ...(instead !== undefined && { instead }) });
  return `${home}/found?${query}`;
}

interface Keeping {
  /** Nothing where it is the second touch of two. */
  keep: (work: () => Promise<void>, then?: () => void) => void;
  failure: string | undefined;
}

/** Writing to the disk of the phone, which may be full. */
export function useKeeping(): Keeping {
  const { entries } = useField();
  const [failure, setFailure] = useState<string>();
  const touch = useRef(new OneTouch());
  const newestDrawn = entries.reduce((most, { order }) => Math.max(most, order), 0);
  const doIt = async (work: () => Promise<void>, then?: () => void) => {
    const end = touch.current.begin({ newestDrawn, isLeft: then !== undefined });
    if (end === undefined) return;
    setFailure(undefined);
    try {
      await work();
    } catch {
      setFailure(FIELD_WORDS.notKept);
      return;
    } finally {
      end();
    }
    then?.();
  };
  return { failure, keep: (work, then) => void doIt(work, then) };
}
