import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { ContractsService } from '../contracts/contracts.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { VanService } from '../vans/van.service.js';
import type { WalkDto } from '../walks/walk.dto.js';
import { WorkTimesService } from '../work-times/work-times.service.js';
import { WalkService } from '../walks/walk.service.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  InvalidInputError,
  NotFoundError,
  StaleVersionError,
} from '../shared/domain-error.js';
import { withoutFirm } from '../shared/without-firm.js';
import { VisitService } from '../visits/visit.service.js';
import { DayFactsRepository, type DayJobRow } from './day-facts.repository.js';
import type { DayPlanDto, PlannedJobDto } from './day-plan.dto.js';
import { PLAN_DAY } from './plan-tasks.js';
import { PlanningRepository } from './planning.repository.js';
import { PlanningService } from './planning.service.js';
import { type DayFacts, type JobFacts, poseDay } from './pose-day.js';
import { tellDay } from './tell-day.js';
import { thereOn } from './there-on.js';

/** Jobs that one plan takes; more are told. */
const MOST_JOBS = 60;

/** Walks that are reckoned for one plan; the rest take as long as is usual. */
const MOST_WALKS = 20;

/** Makes the plan of a day, keeps it, and does as it says when somebody accepts it. */
@Injectable()
export class DayPlanService {
  constructor(
    private readonly facts: DayFactsRepository,
    private readonly planning: PlanningRepository,
    private readonly rules: PlanningService,
    private readonly contracts: ContractsService,
    private readonly visits: VisitService,
    private readonly walks: WalkService,
    private readonly vans: VanService,
    private readonly workTimes: WorkTimesService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  async get(day: string): Promise<DayPlanDto> {
    const kept = await this.planning.findDay(day);
    if (kept === null) throw new NotFoundError('plan of the day', day);
    const { plan, ...rest } = withoutFirm(kept);
    return { ...plan, ...rest };
  }

  /** Reads what is to be done, reckons outside of any transaction, and keeps what came of it. */
  async make(day: string): Promise<DayPlanDto> {
    const read = await this.transaction.read(() => this.read(day));
    const facts = { ...read.facts, jobs: await this.withWalks(read.facts.jobs) };
    const plan = await this.compute.run(PLAN_DAY, poseDay(facts));
    const { notThere, isCutOff } = read;
    const told = { ...tellDay(facts, plan), notThere, isCutOff };
    const made = { day, plan: told, madeAt: this.clock.now() };
    const version = await this.transaction.write(() => this.planning.replaceDay(made));
    return { ...told, day, madeAt: made.madeAt, acceptedAt: null, version };
  }

  /** Names who goes to each visit, and plans a visit for each ticket; all of it or nothing. */
  async accept(day: string, version: number): Promise<DayPlanDto> {
    const plan = await this.get(day);
    if (plan.version !== version) throw new StaleVersionError(plan.version);
    if (plan.acceptedAt !== null) throw new ConflictError('This plan was accepted already.');
    const now = await this.facts.list(day, MOST_JOBS + 1, this.clock.now());
    for (const { technicianId, jobs } of plan.routes) {
      for (const job of jobs) await this.send(day, technicianId, job, now);
    }
    const acceptedAt = this.clock.now();
    await this.planning.acceptDay(day, version, acceptedAt);
    return { ...plan, acceptedAt, version: version + 1 };
  }

  private async send(
    day: string,
    technicianId: string,
    job: PlannedJobDto,
    now: readonly DayJobRow[],
  ): Promise<void> {
    const still = now.find(({ id }) => id === job.jobId);
    if (still === undefined) {
      const what = job.kind === 'visit' ? 'a visit' : `ticket ${job.ticketNumbers.join()}`;
      throw new ConflictError(`At ${job.siteName}, ${what} has changed since: plan the day again.`);
    }
    if (job.kind === 'visit') {
      const { version } = await this.visits.get(job.jobId);
      if (still.technicianId !== technicianId) {
        await this.visits.change(job.jobId, version, { technicianId });
      }
      return;
    }
    const purpose = `Ticket ${job.ticketNumbers.join()}`;
    const fields = { kind: 'call-out', on: day, technicianId, purpose, upkeep: false } as const;
    // A plan that was made of a closed day is meant so.
    const anyTime = { fromTime: null, untilTime: null, confirmed: ['outside-hours' as const] };
    const { siteId, jobId } = job;
    await this.visits.create({ ...fields, ...anyTime, siteId, ticketIds: [jobId] });
  }

  private async read(day: string) {
    const rows = await this.facts.list(day, MOST_JOBS + 1, this.clock.now());
    const jobs = rows.slice(0, MOST_JOBS);
    const people = await this.rules.listWorkingTimes();
    const rules = await this.rules.rules();
    const { secondTrip: secondTripMinutes } = await this.workTimes.times();
    const nowMinute = Math.min(Infinity, ...jobs.map((job) => job.nowMinute));
    const left = { day, nowMinute, underWay: await this.facts.listUnderWay(day), rules };
    const free = people.flatMap((person) => thereOn(person, left));
    const vans = await this.vans.partsOf(free.map(({ id }) => id));
    const there = free.map((one) => ({ ...one, van: vans.get(one.id) ?? null }));
    const wishes = await this.planning.wishesOf(jobs.map(({ id }) => id));
    const upkeep = jobs.filter((job) => job.upkeep);
    const hours = await this.contracts.visitHoursOn(
      upkeep.map(({ siteId }) => siteId),
      day,
    );
    const facts: DayFacts = {
      jobs: jobs.map((job) => {
        const visitHours = job.upkeep ? (hours.get(job.siteId) ?? []) : [];
        return { ...job, visitHours, walk: null };
      }),
      technicians: there,
      wishes: Object.fromEntries(wishes.map((wish) => [wish.id, wish])),
      rules: { ...rules, secondTripMinutes },
    };
    const ids = new Set(there.map(({ id }) => id));
    return {
      facts,
      notThere: people.flatMap(({ personId }) => (ids.has(personId) ? [] : [personId])),
      isCutOff: rows.length > MOST_JOBS,
    };
  }

  /** What the walk of each job's first ticket is expected to take and to need. */
  private async withWalks(jobs: readonly JobFacts[]): Promise<JobFacts[]> {
    const walked: JobFacts[] = [];
    let left = MOST_WALKS;
    for (const job of jobs) {
      const ticket = job.tickets[0];
      const walk = ticket && left-- > 0 ? await this.walk(ticket.id) : null;
      walked.push({ ...job, walk });
    }
    return walked;
  }

  /** Null where nothing is suspect, or what was told is more than a walk can be reckoned from: then there is no walk. */
  private async walk(ticketId: string): Promise<JobFacts['walk']> {
    try {
      const walk = JSON.parse(await this.walks.plan(ticketId, {})) as WalkDto;
      if (walk.next === null) return null;
      const { expectedMinutes: minutes, spreadMinutes, neededTogether } = walk;
      const carried = walk.parts.filter(({ isCarried }) => isCarried);
      const parts = carried.map(({ id: name, neededChance }) => ({ name, neededChance }));
      return { minutes, spreadMinutes, parts, neededTogether };
    } catch (error) {
      if (error instanceof InvalidInputError) return null;
      throw error;
    }
  }
}
