import { Injectable } from '@nestjs/common';
import { PersonService } from '../people/person.service.js';
import { InvalidInputError, NotFoundError, StaleVersionError } from '../shared/domain-error.js';
import { patchFields } from '../shared/validation.js';
import { withoutFirm } from '../shared/without-firm.js';
import { DayFactsRepository } from './day-facts.repository.js';
import type { JobWishDto, JobWishFieldsDto } from './job-wish.dto.js';
import { type PlanningRulesDto, PlanningRulesFieldsDto } from './planning-rules.dto.js';
import { PlanningRepository } from './planning.repository.js';
import { USUAL_TRAVEL } from './travel-minutes.js';
import type { WorkingTimeDto, WorkingTimeFieldsDto } from './working-time.dto.js';

/** How long things take where nobody has said. Common practice, no source. */
const USUAL_RULES: PlanningRulesDto = {
  ...USUAL_TRAVEL,
  upkeepMinutes: 120,
  callOutMinutes: 90,
  movedMinutes: 15,
  roads: [],
  version: 0,
};

const NOTHING_SAID = {
  hours: [],
  daysOff: [],
  skills: [],
  startLatitude: null,
  startLongitude: null,
  endsAtStart: true,
  version: 0,
};

const NOTHING_WANTED = {
  pinnedTo: null,
  notBy: [],
  minutes: null,
  skills: [],
  reason: null,
  version: 0,
};

/** Of a firm's technicians, the first by name. */
const MOST_TECHNICIANS = 200;

/** Keeps what plans go by: who works when, how ways are reckoned, what people want of a job. */
@Injectable()
export class PlanningService {
  constructor(
    private readonly planning: PlanningRepository,
    private readonly facts: DayFactsRepository,
    private readonly people: PersonService,
  ) {}

  /** Every technician of the firm, also those of whom nothing was said yet. */
  async listWorkingTimes(): Promise<WorkingTimeDto[]> {
    const { items } = await this.people.list({ work: 'technician', limit: MOST_TECHNICIANS });
    const times = await this.planning.workingTimesOf(items.map(({ id }) => id));
    return items.map(({ id, name }) => {
      const time = times.find((one) => one.id === id);
      if (time === undefined) return { personId: id, name, ...NOTHING_SAID };
      const { id: personId, ...said } = withoutFirm(time);
      return { personId, name, ...said };
    });
  }

  async putWorkingTime(
    personId: string,
    version: number,
    fields: WorkingTimeFieldsDto,
  ): Promise<WorkingTimeDto> {
    const { name } = await this.people.get(personId);
    for (const [index, { from, until }] of fields.hours.entries()) {
      if (from >= until) throw invalid(`/hours/${index}/until`, `must be after ${from}`);
    }
    if ((fields.startLatitude === null) !== (fields.startLongitude === null)) {
      throw invalid('/startLongitude', 'is given with startLatitude, or neither is');
    }
    const saved = { ...fields, version: version + 1 };
    await this.planning.putWorkingTime({ id: personId, ...saved });
    return { personId, name, ...saved };
  }

  async rules(): Promise<PlanningRulesDto> {
    const rules = await this.planning.findRules();
    return rules === null ? USUAL_RULES : withoutFirm(rules);
  }

  async changeRules(version: number, patch: Record<string, unknown>): Promise<PlanningRulesDto> {
    const { version: current, ...rules } = await this.rules();
    if (current !== version) throw new StaleVersionError(current);
    const fields = await patchFields(PlanningRulesFieldsDto, rules, patch);
    const changed = { ...fields, version: version + 1 };
    await this.planning.putRules(changed);
    return changed;
  }

  async wish(jobId: string): Promise<JobWishDto> {
    if (!(await this.facts.has(jobId))) throw new NotFoundError('visit or ticket', jobId);
    const [wish] = await this.planning.wishesOf([jobId]);
    if (wish === undefined) {
      return { jobId, ...NOTHING_WANTED };
    }
    const { id, ...said } = withoutFirm(wish);
    return { jobId: id, ...said };
  }

  async putWish(jobId: string, version: number, fields: JobWishFieldsDto): Promise<JobWishDto> {
    if (!(await this.facts.has(jobId))) throw new NotFoundError('visit or ticket', jobId);
    await this.checkPeople(fields, '');
    const saved = { ...fields, version: version + 1 };
    await this.planning.putWish({ id: jobId, ...saved });
    return { jobId, ...saved };
  }

  /** Who is named to do something, or not to, is there, and nobody is both. `at` is where they are named. */
  async checkPeople(
    { pinnedTo, notBy }: Pick<JobWishFieldsDto, 'pinnedTo' | 'notBy'>,
    at: string,
  ): Promise<void> {
    const named: [string, string][] = notBy.map((id, index) => [`${at}/notBy/${index}`, id]);
    if (pinnedTo !== null) named.push([`${at}/pinnedTo`, pinnedTo]);
    for (const [field, id] of named) await this.refuseStranger(field, id);
    if (pinnedTo !== null && notBy.includes(pinnedTo)) {
      throw invalid(`${at}/pinnedTo`, 'must not be somebody who is ruled out in notBy');
    }
  }

  private async refuseStranger(field: string, personId: string): Promise<void> {
    try {
      await this.people.get(personId);
    } catch (error) {
      if (!(error instanceof NotFoundError)) throw error;
      throw invalid(field, error.message);
    }
  }
}

function invalid(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason }]);
}
