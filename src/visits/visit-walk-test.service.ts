import { Injectable } from '@nestjs/common';
import { ConflictError } from '../shared/domain-error.js';
import type { KeptWalkTestDto, VisitWalkTestDto } from '../history/proven-point.dto.js';
import { ProvenPointService } from '../history/proven-point.service.js';
import { VisitService } from './visit.service.js';

/** Walk tests belong to a visit on which somebody is, or was, on site. */
@Injectable()
export class VisitWalkTestService {
  constructor(
    private readonly visits: VisitService,
    private readonly proven: ProvenPointService,
  ) {}

  async add(visitId: string, test: VisitWalkTestDto): Promise<KeptWalkTestDto> {
    const visit = await this.visits.find(visitId);
    if (visit.state !== 'under-way' && visit.state !== 'done') {
      throw new ConflictError(`The visit is ${visit.state}: nobody is on site to test.`);
    }
    return this.proven.record(visit, test);
  }

  async list(visitId: string): Promise<KeptWalkTestDto[]> {
    await this.visits.find(visitId);
    return this.proven.listOfVisit(visitId);
  }
}
