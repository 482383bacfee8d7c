import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { ContractVisitService } from '../contracts/contract-visit.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { VisitService } from '../visits/visit.service.js';
import { PLAN_QUARTER } from './plan-tasks.js';
import { PlanningService } from './planning.service.js';
import { type OwedVisitFacts, quarterDay, poseQuarter, type QuarterFacts } from './pose-quarter.js';
import { QuarterFactsRepository } from './quarter-facts.repository.js';
import {
  type AcceptedQuarterDto,
  type AcceptQuarterDto,
  MOST_PLACED,
  type QuarterPlanDto,
  type QuarterWishDto,
} from './quarter-plan.dto.js';
import { tellQuarter } from './tell-quarter.js';

/** Thirteen weeks. */
const DAYS = 91;

/** Puts promised visits on days and technicians, and plans them when somebody accepts. */
@Injectable()
export class QuarterPlanService {
  constructor(
    private readonly facts: QuarterFactsRepository,
    private readonly promised: ContractVisitService,
    private readonly rules: PlanningService,
    private readonly sites: SitesService,
    private readonly visits: VisitService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
  ) {}

  /** Nothing is kept of it; what is wanted of its visits comes with each question. */
  async make(from: string, wishes: readonly QuarterWishDto[] = []): Promise<QuarterPlanDto> {
    const until = quarterDay(from, DAYS);
    const { visits: owed, isCutOff } = await this.promised.listOwed(from, until);
    const visits = owed
      .toSorted(
        (one, other) => compare(one.ideal, other.ideal) || compare(one.siteId, other.siteId),
      )
      .slice(0, MOST_PLACED)
      .map((visit): OwedVisitFacts => visit);
    await this.wishFor(visits, wishes, { from, until });
    const facts = await this.transaction.read(async (): Promise<QuarterFacts> => ({
      from,
      days: DAYS,
      visits,
      places: await this.facts.listPlaces([...new Set(visits.map(({ siteId }) => siteId))]),
      technicians: await this.rules.listWorkingTimes(),
      busy: await this.facts.listBusy(from, until),
      rules: await this.rules.rules(),
    }));
    const problem = poseQuarter(facts);
    const plan = await this.compute.run(PLAN_QUARTER, problem);
    const told = tellQuarter(facts, problem, plan);
    return { from, until, ...told, isCutOff: isCutOff || owed.length > visits.length };
  }

  /** Gives each visit what is wanted of it. */
  private async wishFor(
    visits: OwedVisitFacts[],
    wishes: readonly QuarterWishDto[],
    { from, until }: { from: string; until: string },
  ): Promise<void> {
    const places = new Map(visits.map((visit, index) => [keyOf(visit), index]));
    await this.transaction.read(async () => {
      for (const [index, wish] of wishes.entries()) {
        const field = `/wishes/${index}`;
        await this.rules.checkPeople(wish, field);
        const at = places.get(keyOf(wish));
        const visit = at === undefined ? undefined : visits[at];
        if (at === undefined || visit === undefined) {
          throw invalid(`${field}/ordinal`, 'is no promised visit that this plan can place');
        }
        if (visit.wish !== undefined) throw invalid(field, 'is the second for one visit');
        if (wish.on !== null && (wish.on < from || wish.on >= until)) {
          throw invalid(`${field}/on`, `must be from ${from} on and before ${until}`);
        }
        if (wish.on !== null && wish.notOn.includes(wish.on)) {
          throw invalid(`${field}/on`, 'must not be a day that is ruled out in notOn');
        }
        visits[at] = { ...visit, wish };
      }
    });
  }

  /** All of it or nothing; what was planned meanwhile is no longer owed. */
  async accept(
    from: string,
    { visits: chosen, confirmed }: AcceptQuarterDto,
  ): Promise<AcceptedQuarterDto> {
    const until = quarterDay(from, DAYS);
    const siteIds = [...new Set(chosen.map(({ siteId }) => siteId))].sort();
    const before = await this.transaction.read(() => this.facts.stateOfUpkeep(siteIds));
    const { visits: owed } = await this.promised.listOwed(from, until);
    const free = new Map<string, number>();
    for (const { siteId } of owed) free.set(siteId, (free.get(siteId) ?? 0) + 1);
    for (const [index, { siteId, on }] of chosen.entries()) {
      const field = `/visits/${index}`;
      if (on < from || on >= until) {
        const reason = `must be from ${from} on and before ${until}`;
        throw invalid(`${field}/on`, reason);
      }
      const left = (free.get(siteId) ?? 0) - 1;
      free.set(siteId, left);
      if (left < 0) {
        throw new ConflictError('A visit is no longer owed there: plan the quarter again.', {
          field: `${field}/siteId`,
          siteId,
        });
      }
    }
    return this.transaction.write(async () => {
      for (const siteId of siteIds) await this.sites.lockSite(siteId);
      if ((await this.facts.stateOfUpkeep(siteIds)) !== before) {
        throw new ConflictError('Visits there have changed meanwhile: plan the quarter again.');
      }
      return this.plan(chosen, confirmed);
    });
  }

  private async plan(
    chosen: AcceptQuarterDto['visits'],
    confirmed: AcceptQuarterDto['confirmed'],
  ): Promise<AcceptedQuarterDto> {
    const visitIds: string[] = [];
    for (const [index, { skills, ...visit }] of chosen.entries()) {
      const fields = { kind: 'planned', purpose: 'Promised visit', upkeep: true } as const;
      const anyTime = { fromTime: null, untilTime: null, ticketIds: [], confirmed };
      const { id } = await this.visits
        .create({ ...fields, ...anyTime, ...visit })
        .catch((error: unknown) => {
          throw atVisit(index, error);
        });
      if (skills.length > 0) {
        await this.rules.putWish(id, 0, { ...NOTHING_ELSE, skills });
      }
      visitIds.push(id);
    }
    return { visitIds };
  }
}

const NOTHING_ELSE = { pinnedTo: null, notBy: [], minutes: null, reason: null };

type Owed = Pick<OwedVisitFacts, 'contractId' | 'siteId' | 'year' | 'ordinal'>;

function keyOf({ contractId, siteId, year, ordinal }: Owed): string {
  return `${contractId} ${siteId} ${year} ${ordinal}`;
}

function invalid(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason }]);
}

/** What was refused of one visit, by where it stands in the list. */
function atVisit(index: number, error: unknown): unknown {
  if (!(error instanceof InvalidInputError)) return error;
  return new InvalidInputError(
    error.errors.map(({ field, ...rest }) => ({ ...rest, field: `/visits/${index}${field}` })),
  );
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
