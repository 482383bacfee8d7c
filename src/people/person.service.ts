import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { ForbiddenError, NotFoundError, StaleVersionError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { patchFields } from '../shared/validation.js';
import { AccountService } from './account.service.js';
import {
  type CreatePersonDto,
  type PersonDto,
  PersonFieldsDto,
  type PersonQueryDto,
} from './person.dto.js';
import type { Person } from './person.entity.js';
import { PersonRepository } from './person.repository.js';
import type { Principal } from './principal.js';
import type { Work } from './roles.js';

@Injectable()
export class PersonService {
  constructor(
    private readonly repository: PersonRepository,
    private readonly accounts: AccountService,
    private readonly clock: Clock,
  ) {}

  async create({ id, ...fields }: CreatePersonDto): Promise<PersonDto> {
    const person = { ...fields, id: idOrNew(id), version: 1, createdAt: this.clock.now() };
    await this.repository.insert({ ...person, clientId: null });
    return person;
  }

  async get(id: string): Promise<PersonDto> {
    return toDto(await this.find(id));
  }

  async list({ work, after, limit }: PersonQueryDto): Promise<Page<PersonDto>> {
    const people = await this.repository.list(work, decodeCursor(after, 2), limit + 1);
    return toPage(people, limit, (person) => [person.name, person.id], toDto);
  }

  /** What somebody may do is changed by a person who signed in: a token that leaked must not raise anybody. */
  async change(
    principal: Principal,
    { id, version }: { id: string; version: number },
    patch: Record<string, unknown>,
  ): Promise<PersonDto> {
    const person = await this.find(id);
    if (person.version !== version) throw new StaleVersionError(person.version);
    const fields = await patchFields(PersonFieldsDto, person, patch);
    if (fields.work !== person.work && principal.kind === 'token') {
      throw new ForbiddenError('What somebody’s work is needs a person who is signed in.');
    }
    if (person.work === 'owner' && fields.work !== 'owner') await this.accounts.refuseLastOwner(id);
    const changed = { ...person, ...fields, version: version + 1 };
    await this.repository.update(changed, version);
    return toDto(changed);
  }

  /** One of the firm's own people or of a client's. */
  findAnybody(id: string): Promise<Person | null> {
    return this.repository.find(id);
  }

  /** One of the firm's own people; a client's are not among them. */
  private async find(id: string): Promise<Person> {
    const person = await this.repository.find(id);
    if (person === null || person.work === 'client') throw new NotFoundError('person', id);
    return person;
  }
}

function toDto({ firmId, clientId, work, ...person }: Person): PersonDto {
  return { ...person, work: work as Work };
}
