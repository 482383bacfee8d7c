import { Injectable } from '@nestjs/common';
import { StaleVersionError } from '../shared/domain-error.js';
import { patchFields } from '../shared/validation.js';
import { type WorkTimeDto, type WorkTimesDto, WorkTimesFieldsDto } from './work-times.dto.js';
import { WorkTimesRepository } from './work-times.repository.js';
import {
  learnedPace,
  USUAL_WORK_TIMES,
  WORK_TIME_NAMES,
  type WorkTimeName,
  type WorkTimes,
  workTimesOf,
} from './work-times.js';

/** How long work on site takes at this firm. */
@Injectable()
export class WorkTimesService {
  constructor(private readonly repository: WorkTimesRepository) {}

  /** What plans go by. */
  async times(): Promise<WorkTimes> {
    const { own, pace } = await this.known();
    return workTimesOf(own, pace);
  }

  async read(): Promise<WorkTimesDto> {
    const { own, pace, version } = await this.known();
    const times = workTimesOf(own, pace);
    const items = WORK_TIME_NAMES.map((name): WorkTimeDto => {
      const usualMinutes = USUAL_WORK_TIMES[name];
      const learned = times[name] === usualMinutes ? 'usual' : 'learned';
      const from = own[name] === undefined ? learned : 'own';
      return { name, minutes: times[name], usualMinutes, from };
    });
    return { items, paceFactor: pace.factor, paceVisits: pace.visits, version };
  }

  async change(version: number, patch: Record<string, unknown>): Promise<WorkTimesDto> {
    const { own, version: current } = await this.known();
    if (current !== version) throw new StaleVersionError(current);
    const before = Object.assign(new WorkTimesFieldsDto(), own);
    const fields = await patchFields(WorkTimesFieldsDto, before, patch);
    const said = WORK_TIME_NAMES.flatMap((name) => {
      const minutes = fields[name];
      return minutes === null ? [] : [[name, minutes] as const];
    });
    await this.repository.put({ minutes: Object.fromEntries(said), version: version + 1 });
    return this.read();
  }

  private async known() {
    const row = await this.repository.find();
    const own: Partial<Record<WorkTimeName, number>> = row?.minutes ?? {};
    const pace = learnedPace(await this.repository.finishedCallOuts());
    return { own, pace, version: row?.version ?? 0 };
  }
}
