import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { TooManyError } from '../shared/domain-error.js';
import { RateLimitRepository } from './rate-limit.repository.js';
import { type DelayRule, waitSeconds } from './sign-in-delay.js';

const DAY = 24 * 60 * 60_000;

/** Where failures are counted together, and how they slow down. */
export interface TryLane {
  key: string;
  rule: DelayRule;
}

/** A try that was counted as failed before it was known how it ends. */
export interface Try {
  succeeded(): Promise<void>;
  /** It was right so far, and something is still missing. */
  takeBack(): Promise<void>;
}

/** Slows guessing down: whoever tries waits longer after each failure. */
@Injectable()
export class TryService {
  constructor(
    private readonly repository: RateLimitRepository,
    private readonly clock: Clock,
  ) {}

  /** Counts one more try in each lane; throws while it is too early in one of them, and counts it in none. */
  async begin(lanes: readonly TryLane[]): Promise<Try> {
    const at = this.clock.now();
    const taken: { key: string; before: Date | null }[] = [];
    const giveBack = async () => {
      for (const { key, before } of taken) await this.repository.giveTryBack(key, at, before);
    };
    for (const { key, rule } of lanes) {
      const one = await this.repository.takeTry(key, rule, at);
      if (one !== null) taken.push({ key, before: one.before });
      else {
        await giveBack();
        throw new TooManyError(await this.waitOf(key, rule, at));
      }
    }
    const keys = lanes.map(({ key }) => key);
    const dayAgo = new Date(at.getTime() - DAY);
    return {
      succeeded: () => this.repository.forgetFailures(keys, dayAgo),
      takeBack: giveBack,
    };
  }

  private async waitOf(key: string, rule: DelayRule, now: Date): Promise<number> {
    const failures = await this.repository.failures(key);
    if (failures === undefined) return 1;
    return Math.max(1, waitSeconds(rule, failures.count, failures.lastAt, now));
  }
}
