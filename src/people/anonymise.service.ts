import { Injectable } from '@nestjs/common';
import { NotFoundError } from '../shared/domain-error.js';
import { AccountRepository } from './account.repository.js';
import { AccountService } from './account.service.js';
import { AnonymiseRepository } from './anonymise.repository.js';
import { PersonRepository } from './person.repository.js';

/** Forgets who a person is and keeps what was done (docs/personal-data.md). */
@Injectable()
export class AnonymiseService {
  constructor(
    private readonly repository: AnonymiseRepository,
    private readonly people: PersonRepository,
    private readonly accounts: AccountService,
    private readonly accountRows: AccountRepository,
  ) {}

  async anonymise(personId: string): Promise<void> {
    const person = await this.people.find(personId);
    if (person === null) throw new NotFoundError('person', personId);
    await this.accounts.refuseLastOwner(personId);
    // The end of a UUIDv7 is chance; its beginning is the time, which many share.
    const name = `Former person ${personId.slice(-8)}`;
    await this.accountRows.deleteCredentials(personId);
    await this.accountRows.delete(personId);
    // Forgotten before: what only grows takes no change that changes nothing.
    if (person.name !== name) await this.repository.replaceName(person.name, name);
    await this.repository.forgetWorkingTime(personId);
    const { version } = person;
    await this.people.update({ ...person, name, phone: null, version: version + 1 }, version);
  }
}
