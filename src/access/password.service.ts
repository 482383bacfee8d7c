import { hash, verify } from '@node-rs/argon2';
import { Injectable } from '@nestjs/common';
import { dictionary } from '@zxcvbn-ts/language-common';
import { InvalidInputError } from '../shared/domain-error.js';
import { refusePassword } from './password-rules.js';

/** The least that OWASP's password storage sheet recommends for Argon2id: 19 MiB, two passes. */
const ARGON2ID = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

@Injectable()
export class PasswordService {
  private readonly common = new Set(dictionary['passwords-common']);
  /** Somebody who is not there is checked against this, so that it takes as long. */
  private readonly nobody = hash('nobody has this password', ARGON2ID);

  /** Throws an input error on `field` when the password will not do. */
  check(field: string, password: string, personal: readonly string[]): void {
    const reason = refusePassword(password, (text) => this.common.has(text), personal);
    if (reason !== null) throw new InvalidInputError([{ field, reason }]);
  }

  hash(password: string): Promise<string> {
    return hash(password, ARGON2ID);
  }

  /** Takes as long for null, which no password is right for. */
  async verify(passwordHash: string | null, password: string): Promise<boolean> {
    const right = await verify(passwordHash ?? (await this.nobody), password);
    return passwordHash !== null && right;
  }
}
