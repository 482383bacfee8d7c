import { Injectable } from '@nestjs/common';
import type { KeptWalkTestDto, VisitWalkTestDto } from '../history/proven-point.dto.js';
import { ProvenPointService } from '../history/proven-point.service.js';
import type { CreateReadingDto, ReadingDto } from '../readings/visit-reading.dto.js';
import { VisitReadingService } from '../readings/visit-reading.service.js';
import { ConflictError } from '../shared/domain-error.js';
import type { Page } from '../shared/page.js';
import { VisitService } from './visit.service.js';

/** What is read and tested on a visit. */
@Injectable()
export class VisitWorkService {
  constructor(
    private readonly visits: VisitService,
    private readonly readings: VisitReadingService,
    private readonly proven: ProvenPointService,
  ) {}

  async addReading(visitId: string, reading: CreateReadingDto): Promise<ReadingDto> {
    return this.readings.add(await this.visits.find(visitId), reading);
  }

  async listReadings(
    visitId: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<ReadingDto>> {
    await this.visits.find(visitId);
    return this.readings.list(visitId, after, limit);
  }

  /** Walk tests belong to a visit on which somebody is, or was, on site. */
  async addWalkTest(visitId: string, test: VisitWalkTestDto): Promise<KeptWalkTestDto> {
    const visit = await this.visits.find(visitId);
    if (visit.state !== 'under-way' && visit.state !== 'done') {
      throw new ConflictError(`The visit is ${visit.state}: nobody is on site to test.`);
    }
    return this.proven.record(visit, test);
  }

  async listWalkTests(visitId: string): Promise<KeptWalkTestDto[]> {
    await this.visits.find(visitId);
    return this.proven.listOfVisit(visitId);
  }
}
