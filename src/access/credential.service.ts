import { Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Clock } from '../shared/clock.js';
import { ForbiddenError } from '../shared/domain-error.js';
import { AccessSettings } from './access-settings.js';
import type { CredentialKind } from './authentication.repository.js';
import { SecretService } from './secret.service.js';

export interface Credential {
  kind: CredentialKind;
  secret: string;
}

const BEARER = /^Bearer ([\w-]{20,100})$/i;
const COOKIE_VALUE = /^[\w-]{20,100}$/;

/** How a secret travels: in a cookie that scripts cannot read, or in the header of a program. */
@Injectable()
export class CredentialService {
  readonly cookieName: string;
  readonly passCookieName: string;
  readonly deviceCookiePrefix: string;

  constructor(
    private readonly settings: AccessSettings,
    private readonly secrets: SecretService,
    private readonly clock: Clock,
  ) {
    // The prefix makes browsers refuse the cookie from anywhere but this very host over TLS.
    const prefix = settings.secureCookies ? '__Host-' : '';
    this.cookieName = `${prefix}lastheard`;
    this.passCookieName = `${prefix}lastheard-pass`;
    this.deviceCookiePrefix = `${prefix}lastheard-device-`;
  }

  /** What the request shows of a person; a header comes before a cookie. */
  read(request: FastifyRequest): Credential | undefined {
    const { authorization } = request.headers;
    if (authorization !== undefined) {
      const secret = BEARER.exec(authorization)?.[1];
      return secret === undefined ? undefined : { kind: 'token', secret };
    }
    return readCookie(request, 'session', this.cookieName);
  }

  /** What it shows of a pass; the two may be used side by side in one browser. */
  readPass(request: FastifyRequest): Credential | undefined {
    return readCookie(request, 'pass', this.passCookieName);
  }

  /** A browser sends cookies along with what other sites make it send; this token it does not. */
  refuseForgery(request: FastifyRequest, { kind, secret }: Credential): void {
    if (kind === 'token' || request.method === 'GET' || request.method === 'HEAD') return;
    const token = request.headers['x-csrf-token'];
    if (typeof token !== 'string' || !this.secrets.isCsrfToken(secret, token)) {
      throw new ForbiddenError(
        'The header X-CSRF-Token is missing or wrong; what began the session told it.',
      );
    }
  }

  /** The time left is said, not the end: the browser's clock may be wrong. */
  setCookie(reply: FastifyReply, secret: string, endsAt: Date, name = this.cookieName): void {
    const maxAge = Math.floor((endsAt.getTime() - this.clock.now().getTime()) / 1000);
    void reply.setCookie(name, secret, { ...this.cookie, maxAge });
  }

  clearCookie(reply: FastifyReply): void {
    void reply.clearCookie(this.cookieName, this.cookie);
  }

  private get cookie() {
    const secure = this.settings.secureCookies;
    return { path: '/', httpOnly: true, sameSite: 'strict', secure } as const;
  }
}

function readCookie(
  request: FastifyRequest,
  kind: CredentialKind,
  name: string,
): Credential | undefined {
  const secret = request.cookies[name];
  return secret === undefined || !COOKIE_VALUE.test(secret) ? undefined : { kind, secret };
}
