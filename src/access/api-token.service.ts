import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { ConflictError, InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { ApiTokenDto, CreateApiTokenDto, NewApiTokenDto } from './api-token.dto.js';
import type { ApiToken } from './api-token.entity.js';
import { ApiTokenRepository } from './api-token.repository.js';
import { personIdOf, type Principal } from '../people/principal.js';
import { SecretService } from './secret.service.js';

/** Tells people and scanners of leaked secrets what they have found. */
const PREFIX = 'lastheard_';

/** More one person has no use for, and an owner could not tell apart. Two asked for at once may be one more. */
const MOST_OF_PERSON = 50;

@Injectable()
export class ApiTokenService {
  constructor(
    private readonly repository: ApiTokenRepository,
    private readonly secrets: SecretService,
    private readonly clock: Clock,
  ) {}

  /** Makes a token that acts as a person, who has 50 at most: a conflict then. */
  async create(
    personId: string,
    { name, scopes, endsAt }: CreateApiTokenDto,
  ): Promise<NewApiTokenDto> {
    const createdAt = this.clock.now();
    if (endsAt !== null && endsAt <= createdAt) {
      throw new InvalidInputError([{ field: '/endsAt', reason: 'is in the past' }]);
    }
    if ((await this.repository.countOfPerson(personId)) >= MOST_OF_PERSON)
      throw new ConflictError(
        `${MOST_OF_PERSON} tokens are the most that one person has; revoke one first.`,
        { most: MOST_OF_PERSON },
      );
    const token = PREFIX + this.secrets.create();
    const row = { id: idOrNew(undefined), personId, name, scopes, createdAt, endsAt };
    const secretHash = this.secrets.hash(token);
    await this.repository.insert({ ...row, secretHash, lastUsedAt: null });
    return { ...row, lastUsedAt: null, token };
  }

  /** An owner sees everybody's, others their own. */
  async list(principal: Principal): Promise<ApiTokenDto[]> {
    const tokens = await this.repository.list(reach(principal));
    return tokens.map(toDto);
  }

  async listOfPerson(personId: string): Promise<ApiTokenDto[]> {
    return (await this.repository.list(personId)).map(toDto);
  }

  async revoke(principal: Principal, tokenId: string): Promise<void> {
    const revoked = await this.repository.delete(tokenId, reach(principal));
    if (!revoked) throw new NotFoundError('token', tokenId);
  }

  async endAllOf(personId: string): Promise<void> {
    await this.repository.deleteOfPerson(personId);
  }
}

function reach(principal: Principal): string | undefined {
  return principal.role === 'owner' ? undefined : personIdOf(principal);
}

function toDto({ firmId, secretHash, ...token }: ApiToken): ApiTokenDto {
  return token;
}
