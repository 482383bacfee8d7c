import {
  type BeforeApplicationShutdown,
  Injectable,
  type OnApplicationBootstrap,
} from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { TooManyError } from '../shared/domain-error.js';
import { type Counted, countedAs, type RateLimit, windowStart } from './rate-limit.js';
import { RateLimitRepository } from './rate-limit.repository.js';

const TIDIED_EACH_MS = 60_000;

interface Asking {
  /** Is told which one in its window it is. */
  resolve: (place: number) => void;
  reject: (error: unknown) => void;
}

/** Counts what is asked for, exactly and for all processes together. */
@Injectable()
export class RateLimitService implements OnApplicationBootstrap, BeforeApplicationShutdown {
  /** Who asks while their key is being counted: those who do so until it is sent, or while it is under way, are counted together. */
  private readonly asking = new Map<string, Asking[]>();
  private tidying?: NodeJS.Timeout;

  constructor(
    private readonly repository: RateLimitRepository,
    private readonly clock: Clock,
  ) {}

  /** What earlier windows counted goes by and by, and no request waits for it. */
  onApplicationBootstrap(): void {
    this.tidying = setInterval(() => void this.repository.forgetOver(), TIDIED_EACH_MS).unref();
  }

  beforeApplicationShutdown(): void {
    clearInterval(this.tidying);
  }

  /** Counts one more in this window; too many is an error that says when the next one begins. */
  count(rateLimit: RateLimit, who: string): Promise<Counted> {
    const now = this.clock.now();
    return new Promise((resolve, reject) => {
      const place = (n: number) => {
        const counted = countedAs(rateLimit, n, now);
        if (n <= rateLimit.limit) resolve(counted);
        else reject(new TooManyError(counted.resetSeconds, counted));
      };
      this.ask(keyOf(rateLimit, who, now), rateLimit, { resolve: place, reject });
    });
  }

  /** Counts one more, and says whether that was within the limit. */
  allows(rateLimit: RateLimit, who: string): Promise<boolean> {
    return new Promise((resolve, reject) => {
      const place = (n: number) => resolve(n <= rateLimit.limit);
      this.ask(keyOf(rateLimit, who, this.clock.now()), rateLimit, { resolve: place, reject });
    });
  }

  /** Throws where this process knows already that there is nothing left in this window; asks nobody. */
  refuseUsedUp(rateLimit: RateLimit, who: string): void {
    const now = this.clock.now();
    if (!this.repository.isUsedUp(rateLimit, keyOf(rateLimit, who, now))) return;
    const counted = countedAs(rateLimit, Infinity, now);
    throw new TooManyError(counted.resetSeconds, counted);
  }

  private ask(key: string, rateLimit: RateLimit, one: Asking): void {
    const name = `${rateLimit.name} ${key}`;
    const queue = this.asking.get(name);
    if (queue !== undefined) {
      queue.push(one);
      return;
    }
    this.asking.set(name, [one]);
    this.repository.whenCounting(() => void this.answer(rateLimit, key));
  }

  private async answer(rateLimit: RateLimit, key: string): Promise<void> {
    const queue = `${rateLimit.name} ${key}`;
    const asked = this.asking.get(queue) ?? [];
    this.asking.set(queue, []);
    try {
      const sum = await this.repository.add(rateLimit, key, asked.length);
      for (const [index, { resolve }] of asked.entries()) resolve(sum - asked.length + index + 1);
    } catch (error) {
      for (const { reject } of asked) reject(error);
    }
    if (this.asking.get(queue)?.length === 0) this.asking.delete(queue);
    else this.repository.whenCounting(() => void this.answer(rateLimit, key));
  }
}

function keyOf(rateLimit: RateLimit, who: string, now: Date): string {
  return `${windowStart(rateLimit, now)} ${who}`;
}
