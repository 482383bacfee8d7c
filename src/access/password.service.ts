import { hash, verify } from '@node-rs/argon2';
import { Injectable } from '@nestjs/common';
import { dictionary } from '@zxcvbn-ts/language-common';
import { personalWords } from '../people/email.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { refusePassword } from './password-rules.js';

/** The least that OWASP's password storage sheet recommends for Argon2id: 19 MiB, two passes. */
const ARGON2ID = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/** What others know about who chooses. */
interface Chooser {
  name: string;
  email: string;
}

@Injectable()
export class PasswordService {
  private readonly common = new Set(dictionary['passwords-common']);
  /** Somebody who is not there is checked against this, so that it takes as long. */
  private readonly nobody = hash('nobody has this password', ARGON2ID);

  /** The hash of what somebody chose; an input error on `field` when it will not do. */
  async choose(field: string, password: string, { name, email }: Chooser): Promise<string> {
    const personal = personalWords(name, email);
    const reason = refusePassword(password, (text) => this.common.has(text), personal);
    if (reason !== null) throw new InvalidInputError([{ field, reason }]);
    return hash(password, ARGON2ID);
  }

  /** Takes as long for null, which no password is right for. */
  async verify(passwordHash: string | null, password: string): Promise<boolean> {
    const right = await verify(passwordHash ?? (await this.nobody), password);
    return passwordHash !== null && right;
  }
}
