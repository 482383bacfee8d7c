import { Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Mode } from '../database/open-transaction.js';
import { Clock } from '../shared/clock.js';
import {
  EndedError,
  ForbiddenError,
  TooManyError,
  UnauthenticatedError,
} from '../shared/domain-error.js';
import { AccessSettings, rateLimitsOf } from './access-settings.js';
import {
  AuthenticationRepository,
  type CredentialKind,
  type Shown,
} from './authentication.repository.js';
import { CredentialService } from './credential.service.js';
import { DeviceService } from './device.service.js';
import { networkOf } from '../rate-limits/network.js';
import { limitHeaders, type RateLimit } from '../rate-limits/rate-limit.js';
import type { Principal } from '../people/principal.js';
import { findRouteRule, type GuardedRoute } from './route-roles.js';
import { routeKey } from '../shared/route-key.js';
import { AuditService } from '../audit/audit.service.js';
import { auditedRequest } from '../audit/audited.decorator.js';
import { RateLimitService } from '../rate-limits/rate-limit.service.js';
import { scopesAllow } from './scopes.js';
import { SecretService } from './secret.service.js';
import { isSessionOver, isTouchDue, PASS_ENDED } from './session-rules.js';

const NOTED_REFUSALS: RateLimit = { name: 'noted-refusals', limit: 1, windowSeconds: 60 };

const MOST_LATELY = 10_000;

/** Lets a request through to its handler: who sends it, in which firm, and whether they may. */
@Injectable()
export class AccessGuard {
  private readonly limits: ReturnType<typeof rateLimitsOf>;

  /** Hashes of secrets that were found: what nobody has must not leave a count for each that is tried. */
  private readonly lately = new Set<string>();

  constructor(
    private readonly repository: AuthenticationRepository,
    private readonly credentials: CredentialService,
    private readonly secrets: SecretService,
    private readonly transaction: FirmTransaction,
    private readonly audit: AuditService,
    private readonly rates: RateLimitService,
    private readonly devices: DeviceService,
    private readonly clock: Clock,
    settings: AccessSettings,
  ) {
    this.limits = rateLimitsOf(settings.limits);
  }

  async letThrough(request: FastifyRequest, reply: FastifyReply): Promise<void> {
    const route = routeKey(request.method, request.routeOptions.url ?? '');
    const rule = findRouteRule(route);
    if (rule === undefined) throw new Error(`${route} is not in the table of roles`);
    refuseOtherSites(request);
    if (rule === 'open') {
      if (!isRead(request)) await this.count(reply, this.limits.open, this.senderOf(request));
      return;
    }

    const credential = rule.roles.includes('pass')
      ? this.credentials.readPass(request)
      : this.credentials.read(request);
    if (credential === undefined) throw new UnauthenticatedError();
    const secretHash = this.secrets.hash(credential.secret);
    const limit = credential.kind === 'pass' ? this.limits.pass : this.limits.account;
    this.refuseUsedUp(reply, limit, secretHash);
    // Whoever was let in lately is counted by the packet that asks who they are.
    const counting = this.lately.has(secretHash) ? this.count(reply, limit, secretHash) : undefined;
    counting?.catch(() => undefined);
    const shown = await this.find(credential.kind, secretHash);
    if (shown === undefined) {
      this.lately.delete(secretHash);
      await this.count(reply, this.limits.wrongCredentials, networkOf(request.address));
      throw new UnauthenticatedError();
    }
    await (counting ?? this.count(reply, limit, secretHash));
    this.noteShown(secretHash);
    const principal = toPrincipal(credential.kind, shown);
    const mode = isRead(request) ? 'read' : 'write';
    try {
      this.credentials.refuseForgery(request, credential);
      refuseUnlessAllowed(principal, rule, mode);
    } catch (error) {
      await this.noteRefusal(principal, request);
      throw error;
    }
    request.principal = principal;
    request.transaction = this.transaction.prepare(shown.firmId, shown.siteIds, mode);
  }

  private noteShown(secretHash: string): void {
    if (this.lately.size >= MOST_LATELY) this.lately.clear();
    this.lately.add(secretHash);
  }

  /** Counts, and tells the limit whether it holds or not. */
  private count(reply: FastifyReply, limit: RateLimit, who: string): Promise<void> {
    return this.rates.count(limit, who).then(
      (counted) => void reply.headers(limitHeaders(counted)),
      (error: unknown) => {
        tellLimit(reply, error);
        throw error;
      },
    );
  }

  private refuseUsedUp(reply: FastifyReply, limit: RateLimit, who: string): void {
    try {
      this.rates.refuseUsedUp(limit, who);
    } catch (error) {
      tellLimit(reply, error);
      throw error;
    }
  }

  /** By which an open request is counted: where it comes from, or a device that signed in before. */
  private senderOf(request: FastifyRequest): string {
    const email = (request.body as { email?: unknown } | null | undefined)?.email;
    const device = typeof email === 'string' ? this.devices.find(request, email) : undefined;
    return device === undefined ? networkOf(request.address) : `device ${device}`;
  }

  /** Once a minute for whoever asks: more of the same says no more. */
  private async noteRefusal(principal: Principal, request: FastifyRequest): Promise<void> {
    const who = principal.personId ?? principal.passId ?? principal.credentialId;
    if (!(await this.rates.allows(NOTED_REFUSALS, `${principal.firmId} ${who}`))) return;
    await this.audit.refused(principal, auditedRequest(request));
  }

  /** Who shows the credential; undefined when nobody does any more. An ended pass says so. */
  private find(kind: CredentialKind, secretHash: string): Promise<Shown | undefined> {
    return this.repository.find(kind, secretHash).then((shown) => {
      if (shown === undefined) return undefined;
      if (shown.endedAt !== null) throw new EndedError(PASS_ENDED);
      const now = this.clock.now();
      if (isOver(kind, shown, now)) return undefined;
      if (!isTouchDue(shown.lastUsedAt, now)) return shown;
      return this.repository.touch(kind, shown, now).then(() => shown);
    });
  }
}

function tellLimit(reply: FastifyReply, error: unknown): void {
  if (error instanceof TooManyError && error.broken !== undefined) {
    const used = { ...error.broken, remaining: 0, resetSeconds: error.retryAfterSeconds };
    void reply.headers(limitHeaders(used));
  }
}

/** Browsers say when another site made them send something; nothing is changed for it. */
function refuseOtherSites(request: FastifyRequest): void {
  if (!isRead(request) && request.headers['sec-fetch-site'] === 'cross-site') {
    throw new ForbiddenError('Another site must not send this.');
  }
}

function isRead({ method }: FastifyRequest): boolean {
  return method === 'GET' || method === 'HEAD';
}

function isOver(kind: CredentialKind, { lastUsedAt, endsAt }: Shown, now: Date): boolean {
  if (kind === 'token') return endsAt !== null && endsAt <= now;
  if (lastUsedAt === null || endsAt === null) return true;
  return isSessionOver(kind, { lastSeenAt: lastUsedAt, endsAt }, now);
}

function refuseUnlessAllowed(principal: Principal, rule: GuardedRoute, mode: Mode): void {
  if (!rule.roles.includes(principal.role)) {
    throw new ForbiddenError('Your work in the firm does not include this.');
  }
  if (principal.scopes === null) return;
  if (rule.area === null) throw new ForbiddenError('This needs a person who is signed in.');
  if (!scopesAllow(principal.scopes, rule.area, mode === 'write')) {
    throw new ForbiddenError(`The token has no scope ${rule.area}:${mode}.`);
  }
}

function toPrincipal(kind: CredentialKind, shown: Shown): Principal {
  const { firmId, credentialId, personId, personName, role, clientId, siteId, passId, scopes } =
    shown;
  return {
    firmId,
    kind,
    credentialId,
    role,
    personId,
    personName,
    clientId,
    siteId,
    passId,
    scopes,
  };
}
