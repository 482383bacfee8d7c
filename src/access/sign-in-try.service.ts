import { Injectable } from '@nestjs/common';
import type { KnownAccount } from '../people/account.service.js';
import { networkOf } from '../rate-limits/network.js';
import { ANY_ADDRESS, SAME_ADDRESS } from '../rate-limits/sign-in-delay.js';
import { type TryLane, type Try, TryService } from '../rate-limits/try.service.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { SecretService } from './secret.service.js';

/** Slows guessing down: who tries an e-mail, or the password of an account, waits longer after each failure. */
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

  /**
   * Proves that whoever is signed in is who they say: somebody else may sit there, and guess. By account, in a lane of its own: no
   * guess there keeps anybody from signing in. Outside of the firm's transaction, and what is wrong is an input error.
   */
  async again<T>({ firmId, id }: KnownAccount, prove: () => Promise<T>): Promise<T> {
    const key = this.secrets.hash(`again ${firmId} ${id}`);
    const thisTry = await this.tries.begin([{ key, rule: SAME_ADDRESS }]);
    const proven = await prove().catch(async (error: unknown) => {
      if (!(error instanceof InvalidInputError)) await thisTry.takeBack();
      throw error;
    });
    await thisTry.succeeded();
    return proven;
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
