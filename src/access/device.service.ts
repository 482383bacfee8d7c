import { createHmac, hkdfSync, randomBytes, timingSafeEqual } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { normaliseEmail } from '../people/email.js';
import { Clock } from '../shared/clock.js';
import { AccessSettings } from './access-settings.js';
import { CredentialService } from './credential.service.js';
import { SecretService } from './secret.service.js';

const ID_BYTES = 16;
const NAME_LETTERS = 16;
const DAY_MS = 24 * 60 * 60_000;
const KEPT_MS = 180 * DAY_MS;

/**
 * Knows a browser again that signed in with an e-mail before, by a signed cookie for that e-mail. It
 * lets nobody in: it says only that failures elsewhere are not this device's.
 */
@Injectable()
export class DeviceService {
  private readonly key: Buffer;

  constructor(
    settings: AccessSettings,
    private readonly credentials: CredentialService,
    private readonly secrets: SecretService,
    private readonly clock: Clock,
  ) {
    this.key = Buffer.from(hkdfSync('sha256', settings.sealKey, '', 'lastheard device', 32));
  }

  /** The device's id, if it has signed in with this e-mail. */
  find(request: FastifyRequest, email: string): string | undefined {
    const [id, signature] = request.cookies[this.cookieOf(email)]?.split('.') ?? [];
    if (id === undefined || signature === undefined) return undefined;
    const expected = Buffer.from(this.sign(id, email));
    const given = Buffer.from(signature);
    if (given.length !== expected.length || !timingSafeEqual(given, expected)) return undefined;
    return id;
  }

  /** Lets the device be known again; one that is known keeps its id, and so its lane. */
  remember(request: FastifyRequest, reply: FastifyReply, email: string): void {
    this.rememberAs(this.find(request, email) ?? newId(), reply, email);
  }

  /** The same for whoever opened a mailed link there: what failed before was without the password that they chose now. */
  rememberAnew(reply: FastifyReply, email: string): void {
    this.rememberAs(newId(), reply, email);
  }

  private rememberAs(id: string, reply: FastifyReply, email: string): void {
    const endsAt = new Date(this.clock.now().getTime() + KEPT_MS);
    const value = `${id}.${this.sign(id, email)}`;
    this.credentials.setCookie(reply, value, endsAt, this.cookieOf(email));
  }

  private cookieOf(email: string): string {
    const whose = this.secrets.hash(normaliseEmail(email)).slice(0, NAME_LETTERS);
    return `${this.credentials.deviceCookiePrefix}${whose}`;
  }

  private sign(id: string, email: string): string {
    const text = `${id} ${normaliseEmail(email)}`;
    return createHmac('sha256', this.key).update(text).digest('base64url');
  }
}

function newId(): string {
  return randomBytes(ID_BYTES).toString('base64url');
}
