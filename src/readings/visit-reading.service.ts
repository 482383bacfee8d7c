import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { withoutFirm } from '../shared/without-firm.js';
import { SitesService } from '../sites/sites.service.js';
import { parseReading } from './parse-reading.js';
import { readUnit } from './reading-kinds.js';
import type { CreateReadingDto, ReadingDto } from './visit-reading.dto.js';
import { VisitReadingRepository } from './visit-reading.repository.js';

/** Keeps readings as they were entered; whether one is plausible is not judged here. */
@Injectable()
export class VisitReadingService {
  constructor(
    private readonly readings: VisitReadingRepository,
    private readonly sites: SitesService,
    private readonly clock: Clock,
  ) {}

  async add(
    { id: visitId, siteId }: { id: string; siteId: string },
    { id, ...sent }: CreateReadingDto,
  ): Promise<ReadingDto> {
    const meant = checkReading(sent);
    if (sent.trunk !== null) await this.checkOnDrawing(siteId, sent.trunk, sent.node);
    const now = this.clock.now();
    const reading = {
      ...sent,
      ...meant,
      id: idOrNew(id),
      visitId,
      takenAt: happenedAt('/takenAt', sent.takenAt, now),
      recordedAt: now,
    };
    await this.readings.insert(reading);
    return reading;
  }

  async list(visitId: string, after: string | undefined, limit: number): Promise<Page<ReadingDto>> {
    const readings = await this.readings.list(visitId, decodeCursor(after, 2), limit + 1);
    return toPage(
      readings,
      limit,
      (reading) => [reading.takenAt.toISOString(), reading.id],
      withoutFirm,
    );
  }

  private async checkOnDrawing(siteId: string, trunk: string, node: string | null): Promise<void> {
    const { trunks } = await this.sites.drawing(siteId);
    const drawn = trunks.find((one) => one.trunk === trunk);
    if (drawn === undefined) throw notDrawn('/trunk', `there is no trunk ${trunk} at this site`);
    if (node === null || drawn.nodes.some((one) => one.node === node)) return;
    throw notDrawn('/node', `there is no ${node} on trunk ${trunk}`);
  }
}

/** What a reading's number and unit mean; all that is wrong with it is named at once. */
function checkReading(sent: Omit<CreateReadingDto, 'id'>): { value: number; unit: string } {
  const number = parseReading(sent.entered);
  const unit = readUnit(sent.kind, sent.unit);
  const errors: FieldError[] = [];
  if (sent.trunk === null && sent.place === null) {
    errors.push({
      field: '/place',
      reason: 'say where: a trunk, a trunk and its node, or a place',
    });
  }
  if (sent.trunk === null && sent.node !== null) {
    errors.push({ field: '/trunk', reason: 'is missing: a node is a node of a trunk' });
  }
  if ('reason' in number) errors.push({ field: '/entered', reason: number.reason });
  if ('reason' in unit) errors.push({ field: '/unit', reason: unit.reason });
  if ('reason' in number || 'reason' in unit || errors.length > 0) {
    throw new InvalidInputError(errors);
  }
  return { value: number.value, unit: unit.unit };
}

function notDrawn(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason: `${reason}; a place can be told in words` }]);
}
