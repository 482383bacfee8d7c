import { Injectable } from '@nestjs/common';
import { ContractVisitService } from '../contracts/contract-visit.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { personIdOf, type Principal } from '../people/principal.js';
import { Clock } from '../shared/clock.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { PlanningRepository } from './planning.repository.js';
import { PlanningService } from './planning.service.js';
import { type OwedVisitFacts, quarterDay } from './pose-quarter.js';
import {
  type KeptQuarterWishDto,
  MOST_PLACED,
  type PutQuarterWishDto,
  type QuarterWishDto,
} from './quarter-plan.dto.js';

/** Thirteen weeks. */
export const QUARTER_DAYS = 91;

const NOT_OWED = 'is no promised visit that this plan can place';

interface Weeks {
  from: string;
  until: string;
}

/** Keeps what is wanted of promised visits, for everybody who plans the same thirteen weeks. */
@Injectable()
export class QuarterWishService {
  constructor(
    private readonly planning: PlanningRepository,
    private readonly promised: ContractVisitService,
    private readonly rules: PlanningService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** Those of which the best day is first; as many as a plan takes. */
  async listOwed(
    from: string,
    until: string,
  ): Promise<{ visits: OwedVisitFacts[]; isCutOff: boolean }> {
    const { visits: owed, isCutOff } = await this.promised.listOwed(from, until);
    const visits = owed
      .toSorted(
        (one, other) => compare(one.ideal, other.ideal) || compare(one.siteId, other.siteId),
      )
      .slice(0, MOST_PLACED);
    return { visits, isCutOff: isCutOff || owed.length > visits.length };
  }

  /** What is kept of those visits; of what was booked meanwhile nothing is wanted any more. */
  async list(from: string, visits: readonly OwedVisitFacts[]): Promise<KeptQuarterWishDto[]> {
    const owed = new Set(visits.map(keyOf));
    const kept = await this.transaction.read(() => this.planning.wishesOfQuarter(from));
    return kept
      .filter(({ wish }) => owed.has(keyOf(wish)))
      .map(({ wish, changedBy }) => toDto(wish, changedBy));
  }

  async put(
    principal: Principal,
    from: string,
    version: number,
    fields: PutQuarterWishDto,
  ): Promise<KeptQuarterWishDto> {
    const until = quarterDay(from, QUARTER_DAYS);
    const { visits } = await this.listOwed(from, until);
    const isOwed = visits.some((visit) => keyOf(visit) === keyOf(fields));
    if (!isOwed) throw invalid('/ordinal', NOT_OWED);
    const kept = {
      ...fields,
      quarter: from,
      changedById: personIdOf(principal),
      changedAt: this.clock.now(),
      version: version + 1,
    };
    await this.transaction.write(async () => {
      await this.check(fields, { from, until }, '');
      await this.planning.putQuarterWish({ id: idOrNew(undefined), ...kept });
    });
    return toDto(kept, principal.personName ?? '');
  }

  /** Gives each visit what is wanted of it. */
  async wishFor(
    visits: OwedVisitFacts[],
    wishes: readonly QuarterWishDto[],
    { from, until }: Weeks,
  ): Promise<void> {
    const places = new Map(visits.map((visit, index) => [keyOf(visit), index]));
    await this.transaction.read(async () => {
      for (const [index, wish] of wishes.entries()) {
        const field = `/wishes/${index}`;
        await this.check(wish, { from, until }, field);
        const at = places.get(keyOf(wish));
        const visit = at === undefined ? undefined : visits[at];
        if (at === undefined || visit === undefined) throw invalid(`${field}/ordinal`, NOT_OWED);
        if (visit.wish !== undefined) throw invalid(field, 'is the second for one visit');
        visits[at] = { ...visit, wish };
      }
    });
  }

  private async check(wish: QuarterWishDto, { from, until }: Weeks, field: string): Promise<void> {
    const { on, notOn } = wish;
    await this.rules.checkPeople(wish, field);
    if (on !== null && (on < from || on >= until)) {
      throw invalid(`${field}/on`, `must be from ${from} on and before ${until}`);
    }
    if (on !== null && notOn.includes(on)) {
      throw invalid(`${field}/on`, 'must not be a day that is ruled out in notOn');
    }
  }
}

type Owed = Pick<OwedVisitFacts, 'contractId' | 'siteId' | 'year' | 'ordinal'>;

function keyOf({ contractId, siteId, year, ordinal }: Owed): string {
  return `${contractId} ${siteId} ${year} ${ordinal}`;
}

function toDto(wish: Omit<KeptQuarterWishDto, 'changedBy'>, changedBy: string): KeptQuarterWishDto {
  const { contractId, siteId, year, ordinal, changedAt, version } = wish;
  const { on, notOn, pinnedTo, notBy, skills, isLeft, reason } = wish;
  return {
    ...{ contractId, siteId, year, ordinal, on, notOn, pinnedTo, notBy, skills, isLeft, reason },
    ...{ changedBy, changedAt, version },
  };
}

function invalid(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason }]);
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
