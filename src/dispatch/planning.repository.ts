import { Injectable } from '@nestjs/common';
import { type EntityManager, type EntityTarget, In, type ObjectLiteral } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import { KeptDayPlan } from './day-plan.entity.js';
import { JobWish } from './job-wish.entity.js';
import { HeldQuarterWish } from './quarter-wish.entity.js';
import { PlanningRules } from './planning-rules.entity.js';
import { WorkingTime } from './working-time.entity.js';

/** What plans go by, and the plans: rows that are put in place of what was read. */
@Injectable()
export class PlanningRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async workingTimesOf(ids: string[]): Promise<WorkingTime[]> {
    return (await this.transaction.manager()).findBy(WorkingTime, { id: In(ids) });
  }

  async wishesOf(ids: string[]): Promise<JobWish[]> {
    return (await this.transaction.manager()).findBy(JobWish, { id: In(ids) });
  }

  async findRules(): Promise<PlanningRules | null> {
    return (await this.transaction.manager()).findOneBy(PlanningRules, {});
  }

  async findDay(day: string): Promise<KeptDayPlan | null> {
    return (await this.transaction.manager()).findOneBy(KeptDayPlan, { day });
  }

  async putWorkingTime(time: Omit<WorkingTime, 'firmId'>): Promise<void> {
    await put(await this.transaction.manager(), WorkingTime, { id: time.id }, time);
  }

  async putWish(wish: Omit<JobWish, 'firmId'>): Promise<void> {
    await put(await this.transaction.manager(), JobWish, { id: wish.id }, wish);
  }

  /** What was ever wanted in thirteen weeks, oldest first, with the names of who wanted it; at most 1,000. */
  async wishesOfQuarter(quarter: string): Promise<{ wish: HeldQuarterWish; changedBy: string }[]> {
    const manager = await this.transaction.manager();
    const wishes = await manager.find(HeldQuarterWish, {
      where: { quarter },
      order: { changedAt: 'ASC', id: 'ASC' },
      take: 1000,
    });
    const ids = [...new Set(wishes.map(({ changedById }) => changedById))];
    const people = await manager.query<{ id: string; name: string }[]>(
      'SELECT id, name FROM people WHERE id = ANY ($1)',
      [ids],
    );
    const names = new Map(people.map(({ id, name }) => [id, name]));
    return wishes.map((wish) => ({ wish, changedBy: names.get(wish.changedById) ?? '' }));
  }

  /** Of two who put one version at once, one is stale. */
  async putQuarterWish({ id, ...wish }: Omit<HeldQuarterWish, 'firmId'>): Promise<void> {
    const { quarter, contractId, siteId, year, ordinal } = wish;
    const key = { quarter, contractId, siteId, year, ordinal };
    const row = wish.version === 1 ? { id, ...wish } : wish;
    await put(await this.transaction.manager(), HeldQuarterWish, key, row);
  }

  async putRules(rules: Omit<PlanningRules, 'firmId'>): Promise<void> {
    await put(await this.transaction.manager(), PlanningRules, {}, rules);
  }

  /** Puts a plan in place of whatever the day had, accepted or not: who asks last has the last one. Answers its version. */
  async replaceDay({
    day,
    plan,
    madeAt,
  }: Pick<KeptDayPlan, 'day' | 'plan' | 'madeAt'>): Promise<number> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ version: number }[]>(
      `INSERT INTO day_plans (day, plan, made_at, version) VALUES ($1, $2, $3, 1)
       ON CONFLICT (firm_id, day) DO UPDATE SET plan = excluded.plan, made_at = excluded.made_at,
         accepted_at = NULL, version = day_plans.version + 1
       RETURNING version`,
      [day, JSON.stringify(plan), madeAt],
    );
    if (row === undefined) throw new Error('The plan that was just kept is not there');
    return row.version;
  }

  /** Of two who accept one version at once, one is stale. */
  async acceptDay(day: string, version: number, acceptedAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    const changes = { acceptedAt, version: version + 1 };
    const { affected } = await manager.update(KeptDayPlan, { day, version }, changes);
    if (affected !== 1) throw new StaleVersionError(version);
  }
}

/** Puts a row in place of the version before its own, or of nothing where its version is 1; else it is stale. */
async function put<Row extends ObjectLiteral>(
  manager: EntityManager,
  entity: EntityTarget<Row>,
  key: object,
  row: { version: number },
): Promise<void> {
  const before = row.version - 1;
  if (before > 0) {
    const { affected } = await manager.update(entity, { ...key, version: before }, {
      ...row,
    } as object);
    if (affected !== 1) throw new StaleVersionError(before);
    return;
  }
  const insert = manager
    .createQueryBuilder()
    .insert()
    .into(entity)
    .values({ ...row } as object);
  const inserted = await insert.orIgnore().returning('version').execute();
  if ((inserted.raw as unknown[]).length !== 1) throw new StaleVersionError(before);
}
