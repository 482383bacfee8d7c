import { Injectable } from '@nestjs/common';
import { RetentionService } from '../jobs/retention.service.js';
import type { Principal } from '../people/principal.js';
import { Clock } from '../shared/clock.js';
import { ConflictError, InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { TicketService } from '../tickets/ticket.service.js';
import { VisitService } from '../visits/visit.service.js';
import { LARGEST_PHOTO, MEDIA_TYPES, MOST_PHOTOS, photoFormatOf } from './photo-format.js';
import type { AddPhotoDto, PhotoDto, WithdrawPhotoDto } from './photo.dto.js';
import type { Photo } from './photo.entity.js';
import { type PhotoOf, PhotoRepository } from './photo.repository.js';

/** How long a picture is kept: as long as contracts are looked back upon. */
const KEPT_MS = 5 * 365 * 24 * 60 * 60_000;

/** In one statement of the job that forgets them. */
const FORGOTTEN_AT_ONCE = 500;

/** What a technician photographs: kept with a ticket or a visit, shown to whoever may see those. */
@Injectable()
export class PhotoService {
  constructor(
    private readonly photos: PhotoRepository,
    private readonly tickets: TicketService,
    private readonly visits: VisitService,
    private readonly clock: Clock,
    retention: RetentionService,
  ) {
    retention.add(() => this.forgetOld());
  }

  /** Also of a closed ticket: what it looks like afterwards belongs to it. */
  async addToTicket(by: Principal, ticketId: string, sent: AddPhotoDto): Promise<PhotoDto> {
    const { id, siteId } = await this.tickets.findToChange(ticketId);
    return this.add({ ticketId: id }, siteId, by, sent);
  }

  async addToVisit(by: Principal, visitId: string, sent: AddPhotoDto): Promise<PhotoDto> {
    const { id, siteId } = await this.visits.find(visitId);
    return this.add({ visitId: id }, siteId, by, sent);
  }

  /** Of a ticket with those of the tickets that were merged into it. */
  async listOfTicket(id: string, after: string | undefined, limit: number) {
    await this.tickets.find(id);
    return this.page({ ticketId: id }, after, limit);
  }

  async listOfVisit(id: string, after: string | undefined, limit: number) {
    await this.visits.find(id);
    return this.page({ visitId: id }, after, limit);
  }

  async image(id: string): Promise<{ mediaType: string; image: Buffer }> {
    const found = await this.photos.imageOf(id);
    if (found?.image == null) throw new NotFoundError('picture of a photo', id);
    return { mediaType: MEDIA_TYPES[found.format], image: found.image };
  }

  /** The picture goes; that it was there, and why it went, stays. */
  async withdraw(by: Principal, id: string, { reason }: WithdrawPhotoDto): Promise<PhotoDto> {
    await this.find(id);
    const isNow = await this.photos.withdraw(id, nameOf(by), this.clock.now(), reason);
    if (!isNow) throw new ConflictError('It was withdrawn already.');
    return toDto(await this.find(id));
  }

  private async add(
    of: PhotoOf,
    siteId: string,
    by: Principal,
    { id, caption = null, takenAt, image: sent }: AddPhotoDto,
  ): Promise<PhotoDto> {
    const now = this.clock.now();
    const { image, format } = readImage(sent);
    const at = happenedAt('/takenAt', takenAt, now);
    await this.photos.lock('ticketId' in of ? of.ticketId : of.visitId);
    if ((await this.photos.count(of)) >= MOST_PHOTOS)
      throw new ConflictError(`There are ${MOST_PHOTOS} photos already, which is the most.`, {
        limit: MOST_PHOTOS,
      });
    const photo = {
      id: idOrNew(id),
      siteId,
      ticketId: null,
      visitId: null,
      ...of,
      format,
      byteCount: image.length,
      caption: caption?.trim() || null,
      takenBy: nameOf(by),
      takenAt: at,
      recordedAt: now,
      withdrawnBy: null,
      withdrawnAt: null,
      withdrawnBecause: null,
    };
    await this.photos.insert({ ...photo, image });
    return toDto(photo);
  }

  private async page(
    of: PhotoOf,
    after: string | undefined,
    limit: number,
  ): Promise<Page<PhotoDto>> {
    const photos = await this.photos.list(of, decodeCursor(after, 2), limit + 1);
    return toPage(photos, limit, ({ takenAt, id }) => [takenAt.toISOString(), id], toDto);
  }

  private async find(id: string): Promise<Photo> {
    const photo = await this.photos.find(id);
    if (photo === null) throw new NotFoundError('photo', id);
    return photo;
  }

  private async forgetOld(): Promise<void> {
    const before = new Date(this.clock.now().getTime() - KEPT_MS);
    while ((await this.photos.forgetBefore(before, FORGOTTEN_AT_ONCE)) === FORGOTTEN_AT_ONCE);
  }
}

function readImage(sent: string) {
  const image = Buffer.from(sent, 'base64');
  const format = photoFormatOf(image);
  const reason =
    image.length > LARGEST_PHOTO
      ? `must be of ${LARGEST_PHOTO} bytes at most`
      : 'must be a JPEG, a PNG or a WebP';
  if (format === undefined || image.length > LARGEST_PHOTO)
    throw new InvalidInputError([{ field: '/image', reason }]);
  return { image, format };
}

function nameOf({ personName }: Principal): string {
  if (personName === null) throw new Error('A pass takes no photos');
  return personName;
}

function toDto(photo: Omit<Photo, 'firmId' | 'image'>): PhotoDto {
  const { id, ticketId, visitId, format, byteCount, caption, takenBy, takenAt, recordedAt } = photo;
  const { withdrawnBy, withdrawnAt, withdrawnBecause } = photo;
  return {
    ...{ id, ticketId, visitId, format, byteCount, caption, takenBy, takenAt, recordedAt },
    keptUntil: withdrawnAt ?? new Date(recordedAt.getTime() + KEPT_MS),
    withdrawal: withdrawnAt && {
      by: withdrawnBy ?? '',
      at: withdrawnAt,
      reason: withdrawnBecause ?? '',
    },
  };
}
