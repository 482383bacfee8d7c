import { Controller, Get, Query, type StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { ApiFile, fileAnswer } from '../shared/file-answer.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { ReviewDto, ReviewQueryDto } from './review.dto.js';
import { ReviewService } from './review.service.js';

/** What a client is shown of a year of a contract, so that it signs again. */
@ApiTags('contracts')
@Controller('contracts/:contractId/review')
export class ReviewController {
  constructor(private readonly service: ReviewService) {}

  /**
   * Shows a year: visits promised and done, every ticket with its clock line by line, room-hours of each function, what
   * was found and mended, how often something fails, and what is advised. A year of more than 500 tickets is refused.
   */
  @Get()
  @InParts()
  @ApiProblems(404, 422, 503)
  review(
    @IdParam('contractId') contractId: string,
    @Query() query: ReviewQueryDto,
  ): Promise<ReviewDto> {
    return this.service.review(contractId, query);
  }

  /** Gives every number of it as a sheet. */
  @Get('sheet')
  @InParts()
  @ApiFile('text/csv')
  @ApiProblems(404, 422, 503)
  async sheet(
    @IdParam('contractId') contractId: string,
    @Query() query: ReviewQueryDto,
  ): Promise<StreamableFile> {
    return fileAnswer('text/csv', await this.service.sheet(contractId, query), 'review.csv');
  }

  /** Gives all of it to be printed and signed. */
  @Get('paper')
  @InParts()
  @ApiFile('application/pdf')
  @ApiProblems(404, 422, 503)
  async paper(
    @IdParam('contractId') contractId: string,
    @Query() query: ReviewQueryDto,
  ): Promise<StreamableFile> {
    return fileAnswer('application/pdf', await this.service.paper(contractId, query), 'review.pdf');
  }
}
