import { createContext } from 'preact';
import { useCallback, useContext, useEffect, useMemo, useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { whileLookedAt } from '../parts/while-looked-at.js';
import type { SignedIn } from '../parts/wire.js';
import { type FieldDatabase, type KeptRead, KeptOutbox } from './field-database.js';
import {
  isReadSince,
  isToldBy,
  type KeptInWords,
  type KeptTicket,
  keptTicket,
  keptWork,
  readTicket,
  readWork,
  type KeptWork,
} from './kept-work.js';
import type { OutboxEntry } from './outbox.js';
import { OutboxKeeper, type WhatWasReached } from './outbox-keeper.js';

const EVERY_MS = 60_000;

export interface FieldState {
  database: FieldDatabase;
  keeper: OutboxKeeper;
  person: SignedIn['person'];
  entries: readonly OutboxEntry[];
  reach: WhatWasReached;
  /** As it was read last; undefined: never here. */
  work: KeptRead<KeptWork> | undefined;
  refresh: () => void;
  /** Goes up when something was read anew. */
  readings: number;
}

export const FieldContext = createContext<FieldState | undefined>(undefined);

/** Below the place that knows who works here. */
export function useField(): FieldState {
  const field = useContext(FieldContext);
  if (field === undefined) throw new Error('Nobody is known above this');
  return field;
}

/** All that the pages of one person stand on: what was entered here, and what was read for them. */
export function useFieldOf(database: FieldDatabase, person: SignedIn['person']): FieldState {
  const [work, setWork] = useState<KeptRead<KeptWork>>();
  const [readings, setReadings] = useState(0);
  const [isReached, setReached] = useState<WhatWasReached>('unknown');
  const [, setShown] = useState(0);
  const refresh = useCallback(() => {
    const showWork = async () => setWork(await keptWork(database, person.id));
    const show = async () => {
      await showWork();
      setReadings((count) => count + 1);
    };
    // The kits may take their time: what is to be done is there before.
    readWork(database, person.id, () => void showWork())
      .then(
        () => setReached('reached'),
        (error: unknown) => {
          if (!(error instanceof Failure)) throw error;
          if (error.status === 401) setReached('signed-out');
          else setReached(error.isForLater ? 'later' : 'reached');
        },
      )
      .finally(() => void show());
  }, [database, person.id]);
  const keeper = useMemo(
    () => new OutboxKeeper(new KeptOutbox(database), person, refresh),
    [database, person, refresh],
  );
  useEffect(() => {
    // What the service took before it was read is in what was read.
    void keeper.forget((entry) => isReadSince(database, entry));
    // The service answers again: what waits goes up now, and not when the next try would be due.
    if (isReached === 'reached') keeper.sync();
  }, [database, keeper, readings, isReached]);
  useEffect(() => {
    const stop = keeper.listen(() => setShown((count) => count + 1));
    keeper.start();
    return () => {
      stop();
      keeper.stop();
    };
  }, [keeper]);
  useEffect(() => {
    void keptWork(database, person.id).then(setWork);
    refresh();
    return whileLookedAt(refresh, EVERY_MS);
  }, [database, person.id, refresh]);
  useEffect(() => {
    // The phone knows it before anything was tried.
    const lose = () => setReached('later');
    addEventListener('offline', lose);
    return () => removeEventListener('offline', lose);
  }, []);
  const reach = keeper.reach === 'unknown' || isReached !== 'reached' ? isReached : keeper.reach;
  return { database, keeper, person, entries: keeper.entries, reach, work, refresh, readings };
}

/** What was entered here that what is shown does not tell yet, be it kept already. */
export function useUntold(ticket?: KeptRead<KeptTicket | KeptInWords>): readonly OutboxEntry[] {
  const { entries, work } = useField();
  return useMemo(() => {
    const ticketOf = ({ subject }: OutboxEntry) =>
      subject.ticketId === ticket?.value.ticket.id ? ticket : undefined;
    return entries.filter((entry) => !isToldBy(entry, { work, ticket: ticketOf(entry) }));
  }, [entries, work, ticket]);
}

/** A ticket as it is kept here, read anew where that can be. Undefined: it is looked for; null: it is not here. */
export function useKeptTicket(
  ticketId: string | undefined,
): KeptRead<KeptTicket | KeptInWords> | null | undefined {
  const { database, keeper, readings } = useField();
  const [kept, setKept] = useState<KeptRead<KeptTicket | KeptInWords> | null>();
  useEffect(() => {
    if (ticketId === undefined) return;
    let isShown = true;
    const show = async (orNull: boolean) => {
      const found = await keptTicket(database, ticketId);
      if (isShown && (found !== undefined || orNull)) setKept(found ?? null);
    };
    const read = async () => {
      await show(false);
      try {
        await readTicket(database, ticketId);
        await keeper.forget((entry) => isReadSince(database, entry));
      } catch (error) {
        if (!(error instanceof Failure)) throw error;
      }
      await show(true);
    };
    void read();
    return () => {
      isShown = false;
    };
  }, [database, keeper, ticketId, readings]);
  return kept;
}
