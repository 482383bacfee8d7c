import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { TooManyError } from '../shared/domain-error.js';
import { RateLimitRepository } from './rate-limit.repository.js';
import { SecretService } from './secret.service.js';
import { ANY_ADDRESS, SAME_ADDRESS, waitSeconds } from './sign-in-delay.js';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

/** A process writes the count of a busy account down once in so many requests. */
const STEP = 20;

@Injectable()
export class RateLimitService {
  /** What this process has counted and not yet added to what all share. */
  private pending = new Map<string, number>();
  private pendingSince = 0;

  constructor(
    private readonly repository: RateLimitRepository,
    private readonly secrets: SecretService,
    private readonly clock: Clock,
  ) {}

  /** Counts one more in this minute; too many is an error that says when the next minute begins. */
  async count(key: string, perMinute: number): Promise<void> {
    await this.add(key, 1, perMinute);
  }

  /** The same for what is asked often: shared in steps, so that a read stays one round trip. */
  async countInSteps(key: string, perMinute: number): Promise<void> {
    const minute = this.minute();
    if (minute !== this.pendingSince) {
      this.pending = new Map();
      this.pendingSince = minute;
      await this.repository.forgetBefore(new Date(minute - MINUTE));
    }
    const count = (this.pending.get(key) ?? 0) + 1;
    this.pending.set(key, count % STEP);
    if (count === STEP) await this.add(key, STEP, perMinute);
  }

  /** Throws while it is too early to try this e-mail again; the same whether anybody has it. */
  async refuseTooEarly(email: string, address: string): Promise<void> {
    const keys = this.failureKeys(email, address);
    const now = this.clock.now();
    const waits = (await this.repository.failures(keys)).map(({ key, count, lastAt }) =>
      waitSeconds(key === keys[0] ? SAME_ADDRESS : ANY_ADDRESS, count, lastAt, now),
    );
    const wait = Math.max(0, ...waits);
    if (wait > 0) throw new TooManyError(wait);
  }

  async noteFailure(email: string, address: string): Promise<void> {
    const now = this.clock.now();
    for (const key of this.failureKeys(email, address)) {
      await this.repository.addFailure(key, now);
    }
  }

  async forgetFailures(email: string, address: string): Promise<void> {
    const dayAgo = new Date(this.clock.now().getTime() - DAY);
    await this.repository.forgetFailures(this.failureKeys(email, address), dayAgo);
  }

  private async add(key: string, count: number, perMinute: number): Promise<void> {
    const minute = this.minute();
    const sum = await this.repository.add(key, new Date(minute), count);
    if (sum <= perMinute) return;
    const left = minute + MINUTE - this.clock.now().getTime();
    throw new TooManyError(Math.ceil(left / 1000));
  }

  private minute(): number {
    return Math.floor(this.clock.now().getTime() / MINUTE) * MINUTE;
  }

  /** Hashes: no e-mail that somebody tried is kept. */
  private failureKeys(email: string, address: string): [string, string] {
    return [this.secrets.hash(`${email} ${address}`), this.secrets.hash(email)];
  }
}
