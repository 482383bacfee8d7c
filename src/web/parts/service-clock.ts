import { type Kept, keepIn } from './kept.js';

/** A difference below this is nobody's mistake, and no entry comes in a wrong order by it. */
const LEAST_AHEAD_MS = 60_000;
/** The service names whole seconds. */
const SECOND_MS = 1000;

const NAME = 'service clock';

interface KeptClock {
  /** By how much the phone's clock is ahead; negative: behind. */
  aheadMs: number;
  /** The service's instant that was heard or given out last: what is entered now is later. */
  lastAt: number;
}

/**
 * What time it is by the service, as far as it was heard, on a phone whose own clock may be set wrongly. It is kept, so that it is
 * known with no signal (decision 0147).
 */
export class ServiceClock {
  constructor(
    private readonly kept: Kept,
    private readonly phoneNow: () => number,
  ) {}

  /** So much the phone's clock is ahead of the service's, behind where negative; 0 where they agree. */
  get aheadMs(): number {
    return this.read().aheadMs;
  }

  /** What an answer of the service's says the time was, somewhere between asking and now. */
  hear(date: string | null, askedAt: number): void {
    const said = Date.parse(date ?? '');
    if (Number.isNaN(said)) return;
    const least = askedAt - said - SECOND_MS;
    const most = this.phoneNow() - said;
    const certain = least > 0 ? least : Math.min(most, 0);
    const aheadMs = Math.abs(certain) < LEAST_AHEAD_MS ? 0 : certain;
    // What was given out before may have been wrong: the service's word is not.
    this.kept.write(NAME, { aheadMs, lastAt: said });
  }

  now(): number {
    const { aheadMs, lastAt } = this.read();
    return Math.max(this.phoneNow() - aheadMs, lastAt);
  }

  /** Instants for so many things that are entered now, each later than all before, whatever becomes of the phone's clock. */
  stamps(count: number): string[] {
    const { aheadMs, lastAt } = this.read();
    const first = Math.max(this.phoneNow() - aheadMs, lastAt + 1);
    this.kept.write(NAME, { aheadMs, lastAt: first + count - 1 });
    return Array.from({ length: count }, (_, at) => new Date(first + at).toISOString());
  }

  private read(): KeptClock {
    return this.kept.read<KeptClock>(NAME) ?? { aheadMs: 0, lastAt: 0 };
  }
}

export const SERVICE_CLOCK = new ServiceClock(
  keepIn(() => localStorage),
  () => Date.now(),
);
