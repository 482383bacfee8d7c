import { Injectable } from '@nestjs/common';
import { networkOf } from '../rate-limits/network.js';
import { ANY_ADDRESS, SAME_ADDRESS } from '../rate-limits/sign-in-delay.js';
import { type TryLane, type Try, TryService } from '../rate-limits/try.service.js';
import { SecretService } from './secret.service.js';

/** Slows guessing down: who tries an e-mail waits longer after each failure. */
@Injectable()
export class SignInTryService {
  constructor(
    private readonly tries: TryService,
    private readonly secrets: SecretService,
  ) {}

  /**
   * Throws while it is too early to try this e-mail again; the same whether anybody has it. A device
   * that signed in with the e-mail before has a lane of its own, which no failure elsewhere makes slow.
   */
  begin(email: string, address: string, device: string | undefined): Promise<Try> {
    return this.tries.begin(this.lanesOf(email, address, device));
  }

  /** Keys are hashes: no e-mail that somebody tried is kept. */
  private lanesOf(email: string, address: string, device: string | undefined): TryLane[] {
    if (device !== undefined) {
      return [{ key: this.secrets.hash(`device ${device} ${email}`), rule: SAME_ADDRESS }];
    }
    return [
      { key: this.secrets.hash(`${email} ${networkOf(address)}`), rule: SAME_ADDRESS },
      { key: this.secrets.hash(email), rule: ANY_ADDRESS },
    ];
  }
}
