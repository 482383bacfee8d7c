import { Injectable } from '@nestjs/common';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { refuseFuture } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import { SitesService } from '../sites/sites.service.js';
import { checkAgainstDrawing, isNotChecked, type Sent } from '../reports/observation.service.js';
import type { Withdrawable } from '../reports/withdrawal.js';
import type { KeptWalkTestDto, VisitWalkTestDto } from './proven-point.dto.js';
import type { ProvenPoint } from './proven-point.entity.js';
import {
  type HeardPoint,
  ProvenPointRepository,
  type StationOfTrunk,
} from './proven-point.repository.js';

/** A walk test as it is listed, with what says whether it was taken back. */
export type KeptTest = Omit<KeptWalkTestDto, 'withdrawal'> & Withdrawable;

/** Keeps what walk tests on visits showed to work: from then on it counts as proven. */
@Injectable()
export class ProvenPointService {
  constructor(
    private readonly points: ProvenPointRepository,
    private readonly sites: SitesService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  async record(
    visit: { id: string; siteId: string },
    { id, testedBy, testedAt, observations }: VisitWalkTestDto,
  ): Promise<KeptWalkTestDto> {
    const now = this.clock.now();
    const at = testedAt ?? now;
    const sent = observations.map((reported, index) => ({ index, reported }));
    const wrong = [...refuseFailures(sent, visit.siteId), ...refuseFuture('/testedAt', at, now)];
    if (wrong.length > 0) throw new InvalidInputError(wrong);
    const how = { how: 'walk-test', kind: 'technician' } as const;
    checkAgainstDrawing(sent, await this.sites.drawing(visit.siteId), how);
    const walkTestId = idOrNew(id);
    const points = sent
      .filter((one) => !isNotChecked(one))
      .map(({ reported: { trunk, node, function: name } }) => ({
        id: idOrNew(undefined),
        walkTestId,
        siteId: visit.siteId,
        visitId: visit.id,
        trunk,
        node,
        function: name,
        testedAt: at,
        testedBy,
        recordedAt: now,
        visitWithdrawalId: null,
      }));
    await this.points.insert(points);
    await this.jobs.enqueue('locations', { siteId: visit.siteId });
    const proven = points.map(toPoint);
    const test = { id: walkTestId, visitId: visit.id, testedAt: at, testedBy, recordedAt: now };
    return { ...test, proven, withdrawal: null };
  }

  /** Oldest first; at most `count`, after the given sort key, where one is given. */
  async listOfVisit(
    visitId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<KeptTest[]> {
    const tests = new Map<string, KeptTest>();
    for (const point of await this.points.listOfVisit(visitId, after, count)) {
      const { walkTestId: id, firmId, testedAt, testedBy, recordedAt, visitWithdrawalId } = point;
      const test = { id, firmId, visitId, testedAt, testedBy, recordedAt };
      const withdrawn = { withdrawalId: null, visitWithdrawalId };
      const known = tests.get(id) ?? { ...test, ...withdrawn, proven: [] };
      known.proven.push(toPoint(point));
      tests.set(id, known);
    }
    return [...tests.values()];
  }

  /** One of a visit, kept from others until the transaction ends. */
  async findOnVisit(visitId: string, id: string): Promise<Withdrawable | null> {
    const point = await this.points.findTestLocked(visitId, id);
    return point === null ? null : { ...point, withdrawalId: null };
  }

  withdrawOnVisit(visitId: string, id: string, visitWithdrawalId: string): Promise<void> {
    return this.points.withdrawTest(visitId, id, visitWithdrawalId);
  }

  /** When each function at some of the site's stations was last heard on a visit. */
  lastHeardOn(visitId: string, stations: readonly StationOfTrunk[]): Promise<HeardPoint[]> {
    return this.points.lastHeardOn(visitId, stations);
  }
}

function toPoint({ trunk, node, function: name }: Omit<ProvenPoint, 'firmId'>) {
  return { trunk, node, function: name };
}

/** A fault must not end as a line of a test: it wants a ticket, somebody to go, and a clock. */
function refuseFailures(sent: readonly Sent[], siteId: string): FieldError[] {
  const failed = sent.filter(({ reported: { outcome } }) => ['fails', 'weak'].includes(outcome));
  const reason = `belongs on a ticket: report it at /api/v1/sites/${siteId}/reports, and send the test without it`;
  const errors = failed.map(({ index }) => ({ field: `/observations/${index}/outcome`, reason }));
  if (sent.every(isNotChecked))
    errors.push({ field: '/observations', reason: 'says of no room that it works' });
  return errors;
}
