import { Controller, Get, Query, StreamableFile } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
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
  @ApiOkResponse({
    description: 'The sheet.',
    content: { 'text/csv': { schema: { type: 'string' } } },
  })
  @ApiProblems(404, 422, 503)
  async sheet(
    @IdParam('contractId') contractId: string,
    @Query() query: ReviewQueryDto,
  ): Promise<StreamableFile> {
    return new StreamableFile(Buffer.from(await this.service.sheet(contractId, query)), {
      type: 'text/csv; charset=utf-8',
      disposition: 'attachment; filename="review.csv"',
    });
  }

  /** Gives all of it to be printed and signed. */
  @Get('paper')
  @InParts()
  @ApiOkResponse({
    description: 'The PDF.',
    content: { 'application/pdf': { schema: { type: 'string', format: 'binary' } } },
  })
  @ApiProblems(404, 422, 503)
  async paper(
    @IdParam('contractId') contractId: string,
    @Query() query: ReviewQueryDto,
  ): Promise<StreamableFile> {
    return new StreamableFile(await this.service.paper(contractId, query), {
      type: 'application/pdf',
      disposition: 'inline; filename="review.pdf"',
    });
  }
}
