import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { ContractVisitService } from '../contracts/contract-visit.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { VisitBookingService } from '../visits/visit-booking.service.js';
import { ASKED_ABOUT } from '../visits/visit-time.dto.js';
import type { CreateVisitDto } from '../visits/visit.dto.js';
import { VisitService } from '../visits/visit.service.js';
import { PLAN_QUARTER } from './plan-tasks.js';
import { PlanningService } from './planning.service.js';
import {
  askedOf,
  type OwedVisitFacts,
  quarterDay,
  poseQuarter,
  type QuarterFacts,
  type SitePlace,
} from './pose-quarter.js';
import { askAtOnce, type AskedOfVisit, atVisit, askedOfVisit } from './quarter-questions.js';
import { QuarterFactsRepository } from './quarter-facts.repository.js';
import {
  type AcceptedQuarterDto,
  type AcceptQuarterDto,
  type OwedQuarterDto,
  type PlanQuarterDto,
  type QuarterPlanDto,
} from './quarter-plan.dto.js';
import { QUARTER_DAYS, QuarterWishService } from './quarter-wish.service.js';
import { tellOwed, tellQuarter } from './tell-quarter.js';

/** Puts promised visits on days and technicians, and plans them when somebody accepts. */
@Injectable()
export class QuarterPlanService {
  constructor(
    private readonly facts: QuarterFactsRepository,
    private readonly promised: ContractVisitService,
    private readonly rules: PlanningService,
    private readonly sites: SitesService,
    private readonly visits: VisitService,
    private readonly booking: VisitBookingService,
    private readonly wanted: QuarterWishService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
  ) {}

  async owed(from: string): Promise<OwedQuarterDto> {
    const until = quarterDay(from, QUARTER_DAYS);
    const { visits, isCutOff } = await this.wanted.listOwed(from, until);
    const places = await this.transaction.read(() => this.placesOf(visits));
    const wishes = await this.wanted.list(from, visits);
    return {
      from,
      until,
      visits: visits.map((visit) => tellOwed(visit, places)),
      wishes,
      isCutOff,
    };
  }

  /** Nothing is kept of it. What is wanted of its visits is what is kept, or comes with the question. */
  async make(from: string, { wishes, isQuick }: PlanQuarterDto): Promise<QuarterPlanDto> {
    const until = quarterDay(from, QUARTER_DAYS);
    const { visits, isCutOff } = await this.wanted.listOwed(from, until);
    const wishing = wishes ?? (await this.wanted.list(from, visits));
    await this.wanted.wishFor(visits, wishing, { from, until });
    const facts = await this.transaction.read(async (): Promise<QuarterFacts> => ({
      from,
      days: QUARTER_DAYS,
      visits,
      places: await this.placesOf(visits),
      technicians: await this.rules.listWorkingTimes(),
      busy: await this.facts.listBusy(from, until),
      rules: await this.rules.rules(),
    }));
    const problem = poseQuarter(facts);
    const question = { problem, asked: askedOf(facts), isQuick };
    const plan = await this.compute.run(PLAN_QUARTER, question);
    return { from, until, ...tellQuarter(facts, problem, plan), isCutOff };
  }

  private placesOf(visits: readonly OwedVisitFacts[]): Promise<SitePlace[]> {
    return this.facts.listPlaces([...new Set(visits.map(({ siteId }) => siteId))]);
  }

  /** All of it or nothing; what was planned meanwhile is no longer owed. */
  async accept(
    from: string,
    { visits: chosen, confirmed }: AcceptQuarterDto,
  ): Promise<AcceptedQuarterDto> {
    const until = quarterDay(from, QUARTER_DAYS);
    const siteIds = [...new Set(chosen.map(({ siteId }) => siteId))].sort();
    const isMeant = confirmed.includes('outside-hours');
    const holidays = await this.booking.holidaysOn(isMeant ? [] : chosen);
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
      return this.plan(chosen, confirmed, holidays);
    });
  }

  /** What may be a mistake is asked about all of them at once; nothing is kept then. */
  private async plan(
    chosen: AcceptQuarterDto['visits'],
    confirmed: AcceptQuarterDto['confirmed'],
    holidays: readonly (string | null)[],
  ): Promise<AcceptedQuarterDto> {
    const visitIds: string[] = [];
    const asked: AskedOfVisit[] = [];
    for (const [index, { pinnedTo, notBy, skills, reason, ...visit }] of chosen.entries()) {
      await this.rules.checkPeople({ pinnedTo, notBy }, `/visits/${index}`);
      const book = (meant: AcceptQuarterDto['confirmed']) =>
        this.visits.create({ ...PROMISED, ...visit, confirmed: meant }, holidays[index] ?? null);
      const { id } = await book(confirmed).catch((error: unknown) => {
        const question = askedOfVisit(index, error);
        if (question === null) throw atVisit(index, error);
        asked.push(question);
        // As if it were meant so: what others clash with is seen as well.
        return book([...ASKED_ABOUT]);
      });
      const isWanted = pinnedTo !== null || reason !== null || [...notBy, ...skills].length > 0;
      if (isWanted) {
        await this.rules.putWish(id, 0, { pinnedTo, notBy, minutes: null, skills, reason });
      }
      visitIds.push(id);
    }
    if (asked.length > 0) throw askAtOnce(asked, visitIds);
    return { visitIds };
  }
}

/** A visit that a plan books, but for its site, its day and who makes it. */
const PROMISED = {
  kind: 'planned',
  purpose: 'Promised visit',
  upkeep: true,
  fromTime: null,
  untilTime: null,
  ticketIds: [],
} satisfies Partial<CreateVisitDto>;

function invalid(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason }]);
}
