import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { TooManyError } from '../shared/domain-error.js';
import { networkOf } from './network.js';
import { RateLimitRepository } from './rate-limit.repository.js';
import { SecretService } from './secret.service.js';
import { ANY_ADDRESS, type DelayRule, SAME_ADDRESS, waitSeconds } from './sign-in-delay.js';

const DAY = 24 * 60 * 60_000;

interface Lane {
  key: string;
  rule: DelayRule;
}

/** A try that was counted as failed before it was known how it ends. */
export interface SignInTry {
  succeeded(): Promise<void>;
  /** It was right so far, and something is still missing. */
  takeBack(): Promise<void>;
}

/** Slows guessing down: who tries an e-mail waits longer after each failure. */
@Injectable()
export class SignInTryService {
  constructor(
    private readonly repository: RateLimitRepository,
    private readonly secrets: SecretService,
    private readonly clock: Clock,
  ) {}

  /**
   * Throws while it is too early to try this e-mail again; the same whether anybody has it. A device
   * that signed in with the e-mail before has a lane of its own, which no failure elsewhere makes slow.
   */
  async begin(email: string, address: string, device: string | undefined): Promise<SignInTry> {
    const lanes = this.lanesOf(email, address, device);
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

  /** Keys are hashes: no e-mail that somebody tried is kept. */
  private lanesOf(email: string, address: string, device: string | undefined): Lane[] {
    if (device !== undefined) {
      return [{ key: this.secrets.hash(`device ${device} ${email}`), rule: SAME_ADDRESS }];
    }
    return [
      { key: this.secrets.hash(`${email} ${networkOf(address)}`), rule: SAME_ADDRESS },
      { key: this.secrets.hash(email), rule: ANY_ADDRESS },
    ];
  }

  private async waitOf(key: string, rule: DelayRule, now: Date): Promise<number> {
    const failures = await this.repository.failures(key);
    if (failures === undefined) return 1;
    return Math.max(1, waitSeconds(rule, failures.count, failures.lastAt, now));
  }
}
