import { useRef, useState } from 'preact/hooks';
import { Failure } from '../../parts/failure.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import type { OwedQuarterVisit, ReadOwedQuarter, ReadQuarterPlan } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import { QUARTER_WORDS } from '../words/words.js';
import {
  chosenOf,
  heldOf,
  isWanting,
  keyOfVisit,
  type QuarterPlace,
  type Want,
  wishOf,
} from './quarter-want.js';

/** The plan that a dispatcher has before her: kept over a reload, as nobody else keeps it. */
interface QuarterDraft {
  plan: ReadQuarterPlan | null;
  madeAt: string;
  /** A better one was not waited for. */
  isFirst: boolean;
  /** Where visits lay in the plan before, by their keys. */
  before: Readonly<Record<string, QuarterPlace>>;
}

const NOTHING: QuarterDraft = { plan: null, madeAt: '', isFirst: false, before: {} };

/** The service proves for some seconds, and may have others before. */
const PATIENCE_MS = 70_000;

/** A plan of a quarter as it is asked for, watched, changed and booked. */
export function useQuarter({ from, wishes }: ReadOwedQuarter, onChanged: () => void) {
  const service = useService();
  const path = `/plans/quarters/${from}`;
  const { draft, give, settle } = useDraft<QuarterDraft>(`quarter ${from}`, NOTHING);
  const planning = useSending();
  const booking = useSending();
  const [startedAt, setStartedAt] = useState<number>();
  const [booked, setBooked] = useState<number>();
  const stopping = useRef<AbortController>(undefined);

  const held = heldOf(wishes);
  const wants = Object.fromEntries(Object.entries(held).filter(([, want]) => isWanting(want)));

  const show = (plan: ReadQuarterPlan, isFirst: boolean) => {
    const before = draft.plan === null ? {} : placesOf(draft.plan);
    give({ plan, isFirst, madeAt: new Date().toISOString(), before });
  };

  const make = (first: () => Promise<void> = () => Promise.resolve()) =>
    planning.send(async () => {
      await first();
      const stop = new AbortController();
      stopping.current = stop;
      setBooked(undefined);
      setStartedAt(Date.now());
      onChanged();
      const planned = planWeeks({ service, path, stop: stop.signal }, show);
      await planned.finally(() => setStartedAt(undefined));
    });

  /** Keeps what is wanted, for everybody who plans these weeks, and plans them anew. */
  const want = (visit: OwedQuarterVisit, wanted: Want, onKept: () => void) =>
    make(async () => {
      const ifMatch = held[keyOfVisit(visit)]?.version ?? 0;
      await keepWish({ service, path, onChanged }, { visit, wanted, ifMatch });
      onKept();
    });

  const book = (confirmed: readonly string[] = []) =>
    booking.send(async () => {
      const placed = draft.plan?.placed ?? [];
      const visits = placed.map((one) => chosenOf(one, wants[keyOfVisit(one)]));
      await service.send('POST', `${path}/acceptance`, { body: { visits, confirmed } });
      settle();
      setBooked(placed.length);
      onChanged();
    });

  return {
    ...draft,
    wants,
    isPlanning: planning.isSending,
    startedAt,
    planFailure: planning.failure,
    isBooking: booking.isSending,
    bookFailure: booking.failure,
    booked,
    make: () => make(),
    want,
    stop: () => stopping.current?.abort(),
    book,
    forget: () => settle(),
  };
}

export type UsedQuarter = ReturnType<typeof useQuarter>;

interface Planning {
  service: Service;
  path: string;
  stop: AbortSignal;
}

/** Shows the first plan that is found, and then the best one, unless it is stopped. */
async function planWeeks(
  { service, path, stop }: Planning,
  show: (plan: ReadQuarterPlan, isFirst: boolean) => void,
): Promise<void> {
  const ask = (isQuick: boolean) => {
    const asked = { body: { isQuick }, patienceMs: PATIENCE_MS, signal: stop };
    return service.send<ReadQuarterPlan>('POST', path, asked);
  };
  const first = await ask(true);
  const isBest = first.bound === first.cost;
  show(first, !isBest);
  if (isBest) return;
  try {
    show(await ask(false), false);
  } catch (error) {
    // The first one stays.
    if (!stop.aborted) throw error;
  }
}

function placesOf({ placed }: ReadQuarterPlan): Record<string, QuarterPlace> {
  return Object.fromEntries(
    placed.map((one) => [keyOfVisit(one), { on: one.on, technicianId: one.technicianId }]),
  );
}

interface Keeping {
  service: Service;
  path: string;
  onChanged: () => void;
}

interface Wish {
  visit: OwedQuarterVisit;
  wanted: Want;
  ifMatch: number;
}

async function keepWish(
  { service, path, onChanged }: Keeping,
  { visit, wanted, ifMatch }: Wish,
): Promise<void> {
  try {
    await service.send('PUT', `${path}/wishes`, { body: wishOf(visit, wanted), ifMatch });
  } catch (error) {
    // What somebody else wanted meanwhile is to be seen before it is put away.
    onChanged();
    throw ofVisit(error, keyOfVisit(visit));
  }
}

/** Complaints about a wish, by the visit that it is about. */
function ofVisit(error: unknown, key: string): unknown {
  if (!(error instanceof Failure)) return error;
  const { status, message, errors } = error;
  if (status === 412) return new Failure(status, QUARTER_WORDS.wantedMeanwhile);
  return new Failure(
    status,
    message,
    errors.map((one) => ({ ...one, field: `/${key}${one.field}` })),
  );
}
