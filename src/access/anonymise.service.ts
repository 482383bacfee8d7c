import { Injectable } from '@nestjs/common';
import { ConflictError, NotFoundError } from '../shared/domain-error.js';
import { AccountRepository } from './account.repository.js';
import { AnonymiseRepository } from './anonymise.repository.js';
import { PersonRepository } from './person.repository.js';

/** Forgets who a person is and keeps what was done (docs/personal-data.md). */
@Injectable()
export class AnonymiseService {
  constructor(
    private readonly repository: AnonymiseRepository,
    private readonly people: PersonRepository,
    private readonly accounts: AccountRepository,
  ) {}

  async anonymise(personId: string): Promise<void> {
    const person = await this.people.find(personId);
    if (person === null) throw new NotFoundError('person', personId);
    if (!(await this.accounts.hasOtherOwner(personId))) {
      throw new ConflictError('The last owner who can sign in stays; name another one first.');
    }
    // The end of a UUIDv7 is chance; its beginning is the time, which many share.
    const name = `Former person ${personId.slice(-8)}`;
    await this.repository.deleteAccount(personId);
    await this.repository.replaceName(person.name, name);
    const { version } = person;
    await this.people.update({ ...person, name, phone: null, version: version + 1 }, version);
  }
}
