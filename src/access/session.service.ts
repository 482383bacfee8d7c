import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { RetentionService } from '../jobs/retention.service.js';
import { Clock } from '../shared/clock.js';
import { NotFoundError, UnauthenticatedError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { Language } from '../words/index.js';
import { AccountService } from '../people/account.service.js';
import { PersonService } from '../people/person.service.js';
import { personIdOf, type Principal } from '../people/principal.js';
import { SecretService } from './secret.service.js';
import type { SessionDto, SignedInDto } from './session.dto.js';
import type { Session } from './session.entity.js';
import { SessionRepository } from './session.repository.js';
import { isSessionOver, SESSION_LIMITS } from './session-rules.js';

/** From where a request came. */
export interface Origin {
  address: string;
  userAgent: string;
}

/** A new session; its secret goes into the cookie and is kept nowhere. */
export interface NewSession {
  secret: string;
  signedIn: SignedInDto;
}

@Injectable()
export class SessionService {
  constructor(
    private readonly repository: SessionRepository,
    private readonly people: PersonService,
    private readonly accounts: AccountService,
    private readonly secrets: SecretService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
    retention: RetentionService,
  ) {
    retention.add(() => repository.deleteAllOver(clock.now()));
  }

  /** Within the firm's transaction. */
  async open(
    firmId: string,
    personId: string,
    { address, userAgent }: Origin,
  ): Promise<NewSession> {
    const secret = this.secrets.create();
    const now = this.clock.now();
    const session = {
      id: idOrNew(undefined),
      secretHash: this.secrets.hash(secret),
      personId,
      createdAt: now,
      lastSeenAt: now,
      endsAt: new Date(now.getTime() + SESSION_LIMITS.session.absoluteMs),
      address,
      userAgent: userAgent.slice(0, 300),
    };
    await this.repository.deleteOver(personId, now);
    await this.repository.insert(session);
    return { secret, signedIn: await this.describe(firmId, session, secret) };
  }

  async current(principal: Principal, secret: string): Promise<SignedInDto> {
    const session = await this.repository.find(principal.credentialId);
    if (session === null) throw new UnauthenticatedError();
    return this.describe(principal.firmId, session, secret);
  }

  async list(principal: Principal): Promise<SessionDto[]> {
    const now = this.clock.now();
    const sessions = await this.repository.listOfPerson(personIdOf(principal));
    return sessions
      .filter((session) => !isSessionOver('session', session, now))
      .map(({ id, createdAt, lastSeenAt, endsAt, address, userAgent }) => ({
        id,
        createdAt,
        lastSeenAt,
        endsAt,
        address,
        userAgent,
        current: id === principal.credentialId,
      }));
  }

  async end(principal: Principal, sessionId: string): Promise<void> {
    const ended = await this.repository.delete(sessionId, personIdOf(principal));
    if (!ended) throw new NotFoundError('session', sessionId);
  }

  async endOthers(principal: Principal): Promise<void> {
    await this.repository.deleteOfPerson(personIdOf(principal), principal.credentialId);
  }

  async endAllOf(personId: string): Promise<void> {
    await this.repository.deleteOfPerson(personId);
  }

  /** Ends the session that somebody brings along while signing in anew. */
  async replace(secret: string): Promise<void> {
    const secretHash = this.secrets.hash(secret);
    const old = await this.transaction.runFinding('secret_hash', secretHash, () =>
      this.repository.findShown(secretHash),
    );
    if (old === null) return;
    await this.transaction.run(old.firmId, 'write', () =>
      this.repository.delete(old.id, old.personId),
    );
  }

  async chooseLanguage(principal: Principal, language: Language): Promise<void> {
    await this.accounts.keep(personIdOf(principal), { language });
  }

  private async describe(
    firmId: string,
    { personId, endsAt }: Omit<Session, 'firmId'>,
    secret: string,
  ): Promise<SignedInDto> {
    const person = await this.people.findAnybody(personId);
    if (person === null) throw new UnauthenticatedError();
    const { id, name, work, clientId } = person;
    const { language } = await this.accounts.get(personId);
    const csrfToken = this.secrets.csrfToken(secret);
    return { firmId, person: { id, name, role: work, clientId, language }, csrfToken, endsAt };
  }
}
