import { type CanActivate, type ExecutionContext, Injectable } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { FirmTransaction, type Mode } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { EndedError, ForbiddenError, UnauthenticatedError } from '../shared/domain-error.js';
import { AccessSettings } from './access-settings.js';
import {
  AuthenticationRepository,
  type CredentialKind,
  type Shown,
} from './authentication.repository.js';
import { CredentialService } from './credential.service.js';
import type { Principal } from '../people/principal.js';
import { findRouteRule, type GuardedRoute } from './route-roles.js';
import { routeKey } from '../shared/route-key.js';
import { AuditService } from '../audit/audit.service.js';
import { auditedRequest } from '../audit/audited.decorator.js';
import { RateLimitService } from './rate-limit.service.js';
import { scopesAllow } from './scopes.js';
import { SecretService } from './secret.service.js';
import { isSessionOver, isTouchDue, PASS_ENDED } from './session-rules.js';

/** Lets a request through to its handler: who sends it, in which firm, and whether they may. */
@Injectable()
export class AccessGuard implements CanActivate {
  constructor(
    private readonly repository: AuthenticationRepository,
    private readonly credentials: CredentialService,
    private readonly secrets: SecretService,
    private readonly transaction: FirmTransaction,
    private readonly audit: AuditService,
    private readonly rates: RateLimitService,
    private readonly settings: AccessSettings,
    private readonly clock: Clock,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    const route = routeKey(request.method, request.routeOptions.url ?? '');
    const rule = findRouteRule(route);
    if (rule === undefined) throw new Error(`${route} is not in the table of roles`);
    refuseOtherSites(request);
    const { limits } = this.settings;
    if (rule === 'open') {
      if (!isRead(request)) await this.rates.count(`open ${request.address}`, limits.openPerMinute);
      return true;
    }

    const credential = rule.roles.includes('pass')
      ? this.credentials.readPass(request)
      : this.credentials.read(request);
    if (credential === undefined) throw new UnauthenticatedError();
    const perMinute = credential.kind === 'pass' ? limits.passPerMinute : limits.accountPerMinute;
    const secretHash = this.secrets.hash(credential.secret);
    await this.rates.countInSteps(secretHash, perMinute);
    const shown = await this.find(credential.kind, secretHash);
    if (shown === undefined) {
      await this.rates.count(`wrong ${request.address}`, limits.wrongCredentialsPerMinute);
      throw new UnauthenticatedError();
    }
    const principal = toPrincipal(credential.kind, shown);
    const mode = isRead(request) ? 'read' : 'write';
    try {
      this.credentials.refuseForgery(request, credential);
      refuseUnlessAllowed(principal, rule, mode);
    } catch (error) {
      await this.audit.refused(principal, auditedRequest(request));
      throw error;
    }
    request.principal = principal;
    request.transaction = this.transaction.prepare(shown.firmId, shown.siteIds, mode);
    return true;
  }

  /** Who shows the credential; undefined when nobody does any more. An ended pass says so. */
  private async find(kind: CredentialKind, secretHash: string): Promise<Shown | undefined> {
    const shown = await this.repository.find(kind, secretHash);
    if (shown === undefined) return undefined;
    if (shown.endedAt !== null) throw new EndedError(PASS_ENDED);
    const now = this.clock.now();
    if (isOver(kind, shown, now)) return undefined;
    if (isTouchDue(shown.lastUsedAt, now)) await this.repository.touch(kind, shown, now);
    return shown;
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
  const { firmId, credentialId, personId, role, clientId, siteId, passId, scopes } = shown;
  return {
    firmId,
    kind,
    credentialId,
    role,
    personId,
    clientId,
    siteId,
    passId,
    scopes,
  };
}
