import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  InvalidInputError,
  NotFoundError,
  StaleVersionError,
} from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { patchFields } from '../shared/validation.js';
import { withoutFirm } from '../shared/without-firm.js';
import {
  type ClosedCalendarDto,
  ClosedCalendarFieldsDto,
  type CreateClosedCalendarDto,
  type ReadDaysDto,
} from './closed-calendar.dto.js';
import type { ClosedCalendar } from './closed-calendar.entity.js';
import { ClosedCalendarRepository } from './closed-calendar.repository.js';
import { refuseClosedTime } from './closed-time.js';
import { READ_CALENDAR } from './contract-tasks.js';

/** Keeps calendars of closed times, sent or imported. */
@Injectable()
export class ClosedCalendarService {
  constructor(
    private readonly calendars: ClosedCalendarRepository,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  async create({ id, ...fields }: CreateClosedCalendarDto): Promise<ClosedCalendarDto> {
    check(fields);
    const calendar = { ...fields, id: idOrNew(id), version: 1, createdAt: this.clock.now() };
    await this.calendars.insert(calendar);
    return calendar;
  }

  async get(id: string): Promise<ClosedCalendarDto> {
    return withoutFirm(await this.find(id));
  }

  async list({ after, limit }: PageQueryDto): Promise<Page<ClosedCalendarDto>> {
    const rows = await this.calendars.list(decodeCursor(after, 2), limit + 1);
    return toPage(rows, limit, ({ name, id }) => [name, id], withoutFirm);
  }

  async change(
    id: string,
    version: number,
    patch: Record<string, unknown>,
  ): Promise<ClosedCalendarDto> {
    const calendar = await this.find(id);
    const fields = await patchFields(ClosedCalendarFieldsDto, calendar, patch);
    check(fields);
    return this.update(calendar, version, fields);
  }

  /** Puts the times of an iCalendar text in place of those that are there. */
  async import(id: string, version: number, text: string): Promise<ClosedCalendarDto> {
    const read = await this.read(text);
    return this.transaction.write(async () =>
      this.update(await this.find(id), version, { times: read.times }),
    );
  }

  /** What the text of a calendar would close. */
  async read(text: string): Promise<ReadDaysDto> {
    const today = this.clock.now().toISOString().slice(0, 10);
    const read = await this.compute.run(READ_CALENDAR, { text, today });
    if (!('errors' in read)) return read;
    throw new InvalidInputError(read.errors.map((one) => ({ field: '/icalendar', ...one })));
  }

  /** A calendar that a contract goes by stays. */
  async remove(id: string, version: number): Promise<void> {
    const calendar = await this.calendars.findLocked(id);
    if (calendar === null) throw new NotFoundError('calendar', id);
    if (calendar.version !== version) throw new StaleVersionError(calendar.version);
    const titles = await this.calendars.contractsGoingBy(id);
    if (titles.length > 0) {
      throw new ConflictError(`Contracts go by this calendar: ${titles.join(', ')}.`);
    }
    await this.calendars.remove(id);
  }

  private async update(
    calendar: ClosedCalendar,
    version: number,
    changes: Partial<ClosedCalendarFieldsDto>,
  ): Promise<ClosedCalendarDto> {
    if (calendar.version !== version) throw new StaleVersionError(calendar.version);
    const changed = { ...calendar, ...changes, version: version + 1 };
    await this.calendars.update(changed, version);
    for (const siteId of await this.calendars.sitesGoingBy(calendar.id)) {
      await this.jobs.enqueue('promise-clocks', { siteId });
    }
    return withoutFirm(changed);
  }

  private async find(id: string): Promise<ClosedCalendar> {
    const calendar = await this.calendars.find(id);
    if (calendar === null) throw new NotFoundError('calendar', id);
    return calendar;
  }
}

function check({ times }: ClosedCalendarFieldsDto): void {
  const errors = times.flatMap((time, index) => {
    const reason = refuseClosedTime(time);
    return reason === null ? [] : [{ field: `/times/${index}/until`, reason }];
  });
  if (errors.length > 0) throw new InvalidInputError(errors);
}
