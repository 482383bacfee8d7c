import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { AccessSettings } from './access-settings.js';

const ALGORITHM = 'aes-256-gcm';
/** NIST SP 800-38D, 8.2.2 (memory): 96 random bits suit fewer than 2^32 seals with one key. */
const NONCE_BYTES = 12;
const TAG_BYTES = 16;

/** Hides what must be read again, and so cannot be hashed, from whoever reads the database alone. */
@Injectable()
export class SealService {
  constructor(private readonly settings: AccessSettings) {}

  /** `boundTo` names whose it is: put into another's row, it does not open. */
  seal(text: string, boundTo: string): string {
    const nonce = randomBytes(NONCE_BYTES);
    const cipher = createCipheriv(ALGORITHM, this.settings.sealKey, nonce);
    cipher.setAAD(Buffer.from(boundTo));
    const hidden = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()]);
    return Buffer.concat([nonce, cipher.getAuthTag(), hidden]).toString('base64url');
  }

  /** Throws when it was sealed with another key, for somebody else, or changed since. */
  open(sealed: string, boundTo: string): string {
    const bytes = Buffer.from(sealed, 'base64url');
    const nonce = bytes.subarray(0, NONCE_BYTES);
    const tag = bytes.subarray(NONCE_BYTES, NONCE_BYTES + TAG_BYTES);
    const options = { authTagLength: TAG_BYTES };
    const decipher = createDecipheriv(ALGORITHM, this.settings.sealKey, nonce, options);
    decipher.setAAD(Buffer.from(boundTo));
    decipher.setAuthTag(tag);
    const hidden = bytes.subarray(NONCE_BYTES + TAG_BYTES);
    return Buffer.concat([decipher.update(hidden), decipher.final()]).toString('utf8');
  }
}
