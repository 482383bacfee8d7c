import { createHmac, hash, randomBytes, timingSafeEqual } from 'node:crypto';
import { Injectable } from '@nestjs/common';

const SECRET_BYTES = 32;

/** Makes and hashes the secrets that are shown once and kept only as hashes. */
@Injectable()
export class SecretService {
  /** 256 random bits, in letters that fit a header and a link. */
  create(bytes = SECRET_BYTES): string {
    return randomBytes(bytes).toString('base64url');
  }

  /** A plain hash is enough: what has this much chance in it cannot be guessed through. */
  hash(secret: string): string {
    return hash('sha256', secret);
  }

  /** The token that a page must send beside its cookie; another site can read neither. */
  csrfToken(sessionSecret: string): string {
    return createHmac('sha256', sessionSecret).update('csrf').digest('base64url');
  }

  isCsrfToken(sessionSecret: string, token: string): boolean {
    const expected = Buffer.from(this.csrfToken(sessionSecret));
    const given = Buffer.from(token);
    return given.length === expected.length && timingSafeEqual(given, expected);
  }
}
