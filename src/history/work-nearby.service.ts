import { Injectable } from '@nestjs/common';
import { JobService } from '../jobs/job.service.js';
import type { WithdrawDto } from '../reports/withdrawal.dto.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  type FieldError,
  InvalidInputError,
  NotFoundError,
} from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { withoutFirm } from '../shared/without-firm.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';
import { SitesService } from '../sites/sites.service.js';
import type { TellWorkNearbyDto, WorkNearbyDto } from './work-nearby.dto.js';
import { WorkNearbyRepository } from './work-nearby.repository.js';

/** A day has begun somewhere on Earth so many hours before it does by the clock of Greenwich. */
const EARLIEST_ZONE_HOURS = 14;

/** Keeps what others did near a site's parts, and its own log of it: who said so, who withdrew it. */
@Injectable()
export class WorkNearbyService {
  constructor(
    private readonly works: WorkNearbyRepository,
    private readonly sites: SitesService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  async tell(siteId: string, sent: TellWorkNearbyDto): Promise<WorkNearbyDto> {
    await this.sites.get(siteId);
    const now = this.clock.now();
    const { rooms, on, byWhom, note = null, saidBy, saidAt } = sent;
    const errors = wrongRooms(rooms, await this.sites.drawing(siteId));
    if (new Date(on).getTime() > now.getTime() + EARLIEST_ZONE_HOURS * 3_600_000)
      errors.push({ field: '/on', reason: 'is in the future' });
    if (errors.length > 0) throw new InvalidInputError(errors);
    const work = {
      id: idOrNew(sent.id),
      siteId,
      rooms: rooms.map(({ trunk, node }) => ({ trunk, node })),
      on,
      byWhom,
      note,
      saidBy: saidBy.name,
      saidByKind: saidBy.kind,
      recordedAt: happenedAt('/saidAt', saidAt, now),
      withdrawnBy: null,
      withdrawnAt: null,
      withdrawnBecause: null,
    };
    await this.works.insert(work);
    await this.jobs.enqueue('locations', { siteId });
    return work;
  }

  async list(
    siteId: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<WorkNearbyDto>> {
    await this.sites.get(siteId);
    const works = await this.works.listOfSite(siteId, decodeCursor(after, 2), limit + 1);
    return toPage(works, limit, ({ on, id }) => [on, id], withoutFirm);
  }

  async withdraw(siteId: string, id: string, said: WithdrawDto): Promise<WorkNearbyDto> {
    const work = await this.works.findLocked(siteId, id);
    if (work === null) throw new NotFoundError('work nearby', id);
    if (work.withdrawnAt !== null) throw new ConflictError('This was withdrawn already.');
    const withdrawal = {
      withdrawnBy: said.saidBy.name,
      withdrawnAt: happenedAt('/saidAt', said.saidAt, this.clock.now()),
      withdrawnBecause: said.reason,
    };
    await this.works.withdraw(id, withdrawal);
    await this.jobs.enqueue('locations', { siteId });
    return withoutFirm({ ...work, ...withdrawal });
  }
}

function wrongRooms(rooms: TellWorkNearbyDto['rooms'], drawing: DrawnRecord): FieldError[] {
  return rooms.flatMap(({ trunk, node }, at) => {
    if (findNode(drawing, trunk, node) !== undefined) return [];
    if (drawing.trunks.some((one) => one.trunk === trunk))
      return [{ field: `/rooms/${at}/node`, reason: `there is no ${node} on trunk ${trunk}` }];
    const reason = `there is no trunk ${trunk} on the drawing`;
    return [{ field: `/rooms/${at}/trunk`, reason }];
  });
}
