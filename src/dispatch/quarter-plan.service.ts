import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { ContractVisitService } from '../contracts/contract-visit.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { VisitService } from '../visits/visit.service.js';
import { PLAN_QUARTER } from './plan-tasks.js';
import { PlanningService } from './planning.service.js';
import { quarterDay, poseQuarter, type QuarterFacts } from './pose-quarter.js';
import { QuarterFactsRepository } from './quarter-facts.repository.js';
import {
  type AcceptedQuarterDto,
  type AcceptQuarterDto,
  MOST_PLACED,
  type QuarterPlanDto,
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

  /** Nothing is kept of it. */
  async make(from: string): Promise<QuarterPlanDto> {
    const until = quarterDay(from, DAYS);
    const { visits: owed, isCutOff } = await this.promised.listOwed(from, until);
    const visits = owed
      .toSorted(
        (one, other) => compare(one.ideal, other.ideal) || compare(one.siteId, other.siteId),
      )
      .slice(0, MOST_PLACED);
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
        throw new InvalidInputError([{ field: `${field}/on`, reason }]);
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
    for (const [index, visit] of chosen.entries()) {
      const fields = { kind: 'planned', purpose: 'Promised visit', upkeep: true } as const;
      const anyTime = { fromTime: null, untilTime: null, ticketIds: [], confirmed };
      const { id } = await this.visits
        .create({ ...fields, ...anyTime, ...visit })
        .catch((error: unknown) => {
          throw atVisit(index, error);
        });
      visitIds.push(id);
    }
    return { visitIds };
  }
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
