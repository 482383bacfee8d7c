import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { NotFoundError, StaleVersionError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { withoutFirm } from '../shared/without-firm.js';
import { patchFields } from '../shared/validation.js';
import {
  type CreatePersonDto,
  type PersonDto,
  PersonFieldsDto,
  type PersonQueryDto,
} from './person.dto.js';
import type { Person } from './person.entity.js';
import { PersonRepository } from './person.repository.js';

@Injectable()
export class PersonService {
  constructor(
    private readonly repository: PersonRepository,
    private readonly clock: Clock,
  ) {}

  async create({ id, ...fields }: CreatePersonDto): Promise<PersonDto> {
    const person = { ...fields, id: idOrNew(id), version: 1, createdAt: this.clock.now() };
    await this.repository.insert(person);
    return person;
  }

  async get(id: string): Promise<PersonDto> {
    return withoutFirm(await this.find(id));
  }

  async list({ work, after, limit }: PersonQueryDto): Promise<Page<PersonDto>> {
    const people = await this.repository.list(work, decodeCursor(after, 2), limit + 1);
    return toPage(people, limit, (person) => [person.name, person.id], withoutFirm);
  }

  async change(id: string, version: number, patch: Record<string, unknown>): Promise<PersonDto> {
    const person = await this.find(id);
    if (person.version !== version) throw new StaleVersionError(person.version);
    const fields = await patchFields(PersonFieldsDto, person, patch);
    const changed = { ...person, ...fields, version: version + 1 };
    await this.repository.update(changed, version);
    return withoutFirm(changed);
  }

  private async find(id: string): Promise<Person> {
    const person = await this.repository.find(id);
    if (person === null) throw new NotFoundError('person', id);
    return person;
  }
}
