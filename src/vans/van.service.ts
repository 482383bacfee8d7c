import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { PersonService } from '../people/person.service.js';
import type { Principal } from '../people/principal.js';
import type { TakenFromVan } from '../tickets/ticket-log.js';
import { InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import type { VanDto, VanFieldsDto } from './van.dto.js';
import { backInVan, leftInVan, partKey, takenOut, type VanPart } from './van-parts.js';
import { VanRepository } from './van.repository.js';

/** Keeps what the vans of technicians carry. */
@Injectable()
export class VanService {
  constructor(
    private readonly repository: VanRepository,
    private readonly people: PersonService,
    private readonly clock: Clock,
  ) {}

  async get(asker: Principal, personId: string): Promise<VanDto> {
    refuseStranger(asker, personId);
    const { name } = await this.people.get(personId);
    const [stock] = await this.repository.listOf([personId]);
    return { personId, name, parts: stock?.parts ?? [], version: stock?.version ?? 0 };
  }

  async put(
    asker: Principal,
    { personId, version }: { personId: string; version: number },
    { parts }: VanFieldsDto,
  ): Promise<VanDto> {
    refuseStranger(asker, personId);
    refuseTwice(parts);
    const { name, work } = await this.people.get(personId);
    if (work !== 'technician') {
      throw new InvalidInputError([{ field: 'personId', reason: 'must be a technician' }]);
    }
    await this.repository.put({ id: personId, version }, parts, this.clock.now());
    return { personId, name, parts, version: version + 1 };
  }

  /** Takes parts out of the van of whoever says to have used them at an instant, as far as they are in it; tells what it took. */
  async take(
    { personId }: Principal,
    used: readonly { name: string; quantity: number }[],
    at: Date,
  ): Promise<TakenFromVan | undefined> {
    if (personId === null || used.length === 0) return undefined;
    const parts = await this.repository.lockCounted(personId, at);
    if (parts === null) return undefined;
    const left = leftInVan(parts, used);
    if (left === parts) return undefined;
    await this.repository.change(personId, left);
    return { personId, parts: takenOut(parts, left) };
  }

  /** Puts back what was taken at an instant and was not used after all, unless the van was counted since. */
  async giveBack({ personId, parts: taken }: TakenFromVan, at: Date): Promise<void> {
    const parts = await this.repository.lockCounted(personId, at);
    if (parts === null) return;
    const back = backInVan(parts, taken);
    if (back !== parts) await this.repository.change(personId, back);
  }

  /** What the vans of these carry; of those who are not in it nobody said anything yet. */
  async partsOf(personIds: readonly string[]): Promise<Map<string, VanPart[]>> {
    if (personIds.length === 0) return new Map();
    const stocks = await this.repository.listOf(personIds);
    return new Map(stocks.map(({ id, parts }) => [id, parts]));
  }
}

/** A technician reaches their own van alone. */
function refuseStranger({ role, personId }: Principal, asked: string): void {
  if (role === 'technician' && personId !== asked) {
    throw new NotFoundError('van of the person', asked);
  }
}

/** Of two counts of one part, who would know which holds. */
function refuseTwice(parts: readonly VanPart[]): void {
  const keys = parts.map(({ name }) => partKey(name));
  const errors = keys.flatMap((key, index) =>
    keys.indexOf(key) < index
      ? [{ field: `/parts/${index}/name`, reason: 'is there already' }]
      : [],
  );
  if (errors.length > 0) throw new InvalidInputError(errors);
}
