import { Body, Controller, Get, HttpCode, Post, Query, StreamableFile } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { AddPhotoDto, PhotoDto, PhotoPageDto, WithdrawPhotoDto } from './photo.dto.js';
import { MEDIA_TYPES } from './photo-format.js';
import { PhotoService } from './photo.service.js';

const PICTURE = { schema: { type: 'string', format: 'binary' } } as const;

@ApiTags('photos')
@Controller()
export class PhotoController {
  constructor(private readonly service: PhotoService) {}

  /** Adds a photo to a ticket, which may be closed; at most 30 a ticket. */
  @Post('tickets/:ticketId/photos')
  @ApiProblems(404, 409, 422)
  addToTicket(
    @CurrentPrincipal() by: Principal,
    @IdParam('ticketId') ticketId: string,
    @Body() photo: AddPhotoDto,
  ): Promise<PhotoDto> {
    return this.service.addToTicket(by, ticketId, photo);
  }

  /** Lists a ticket’s photos, with those of the tickets that were merged into it. */
  @Get('tickets/:ticketId/photos')
  @ApiProblems(404, 422)
  listOfTicket(
    @IdParam('ticketId') ticketId: string,
    @Query() { after, limit }: PageQueryDto,
  ): Promise<PhotoPageDto> {
    return this.service.listOfTicket(ticketId, after, limit);
  }

  /** Adds a photo to a visit; at most 30 a visit. */
  @Post('visits/:visitId/photos')
  @ApiProblems(404, 409, 422)
  addToVisit(
    @CurrentPrincipal() by: Principal,
    @IdParam('visitId') visitId: string,
    @Body() photo: AddPhotoDto,
  ): Promise<PhotoDto> {
    return this.service.addToVisit(by, visitId, photo);
  }

  /** Lists a visit’s photos. */
  @Get('visits/:visitId/photos')
  @ApiProblems(404, 422)
  listOfVisit(
    @IdParam('visitId') visitId: string,
    @Query() { after, limit }: PageQueryDto,
  ): Promise<PhotoPageDto> {
    return this.service.listOfVisit(visitId, after, limit);
  }

  /** Gives the picture itself; 404 once it was withdrawn, and after five years. */
  @Get('photos/:photoId/image')
  @ApiOkResponse({
    description: 'The picture.',
    content: Object.fromEntries(Object.values(MEDIA_TYPES).map((type) => [type, PICTURE])),
  })
  @ApiProblems(404, 422)
  async image(@IdParam('photoId') photoId: string): Promise<StreamableFile> {
    const { image, mediaType } = await this.service.image(photoId);
    return new StreamableFile(image, { type: mediaType, disposition: 'inline' });
  }

  /** Takes a photo back: the picture is gone from then on; that it was there, and why it went, stays. */
  @Post('photos/:photoId/withdraw')
  @HttpCode(200)
  @ApiProblems(404, 409, 422)
  withdraw(
    @CurrentPrincipal() by: Principal,
    @IdParam('photoId') photoId: string,
    @Body() said: WithdrawPhotoDto,
  ): Promise<PhotoDto> {
    return this.service.withdraw(by, photoId, said);
  }
}
