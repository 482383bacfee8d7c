import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { TooManyError } from '../shared/domain-error.js';
import { type Counted, countedAs, type RateLimit, windowStart } from './rate-limit.js';
import { RateLimitRepository } from './rate-limit.repository.js';

interface Asking {
  resolve: (place: number) => void;
  reject: (error: unknown) => void;
}

/** Counts what is asked for, exactly and for all processes together. */
@Injectable()
export class RateLimitService {
  /** Who asks while their key is being counted: they are counted together by the next statement. */
  private readonly asking = new Map<string, Asking[]>();
  private readonly tidiedAt = new Map<string, number>();

  constructor(
    private readonly repository: RateLimitRepository,
    private readonly clock: Clock,
  ) {}

  /** Counts one more in this window; too many is an error that says when the next one begins. */
  async count(rateLimit: RateLimit, who: string): Promise<Counted> {
    const now = this.clock.now();
    const place = await this.placeOf(rateLimit, who, now);
    const counted = countedAs(rateLimit, place, now);
    if (place > rateLimit.limit) throw new TooManyError(counted.resetSeconds, counted);
    return counted;
  }

  /** Counts one more, and says whether that was within the limit. */
  async allows(rateLimit: RateLimit, who: string): Promise<boolean> {
    return (await this.placeOf(rateLimit, who, this.clock.now())) <= rateLimit.limit;
  }

  /** Throws where this process knows already that there is nothing left in this window; asks nobody. */
  refuseUsedUp(rateLimit: RateLimit, who: string): void {
    const now = this.clock.now();
    if (!this.repository.isUsedUp(rateLimit, keyOf(rateLimit, who, now))) return;
    const counted = countedAs(rateLimit, Infinity, now);
    throw new TooManyError(counted.resetSeconds, counted);
  }

  private async placeOf(rateLimit: RateLimit, who: string, now: Date): Promise<number> {
    await this.tidy(rateLimit, now);
    const key = keyOf(rateLimit, who, now);
    return new Promise((resolve, reject) => {
      const queue = this.asking.get(`${rateLimit.name} ${key}`);
      if (queue !== undefined) queue.push({ resolve, reject });
      else void this.answer(rateLimit, key, [{ resolve, reject }]);
    });
  }

  private async answer(rateLimit: RateLimit, key: string, first: Asking[]): Promise<void> {
    const queue = `${rateLimit.name} ${key}`;
    for (let asked = first; asked.length > 0; asked = this.asking.get(queue) ?? []) {
      this.asking.set(queue, []);
      try {
        const sum = await this.repository.add(rateLimit, key, asked.length);
        for (const [index, { resolve }] of asked.entries()) resolve(sum - asked.length + index + 1);
      } catch (error) {
        for (const { reject } of asked) reject(error);
      }
    }
    this.asking.delete(queue);
  }

  /** Once in a window: what earlier ones counted goes. */
  private async tidy(rateLimit: RateLimit, now: Date): Promise<void> {
    const start = windowStart(rateLimit, now);
    if (this.tidiedAt.get(rateLimit.name) === start) return;
    this.tidiedAt.set(rateLimit.name, start);
    await this.repository.forgetOver(rateLimit);
  }
}

function keyOf(rateLimit: RateLimit, who: string, now: Date): string {
  return `${windowStart(rateLimit, now)} ${who}`;
}
