import { Type } from 'class-transformer';
import { IsInt, IsOptional, IsString, Max, Min } from 'class-validator';

/** Of a list that is most often wanted whole. */
export class LongPageQueryDto {
  /** How many at most. */
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(5000)
  limit: number = 5000;

  /** `next` of the page before; left out: the first page. */
  @IsOptional()
  @IsString()
  after?: string;
}

/** How to page through a list: the cursor of the page before, and how many. */
export class PageQueryDto {
  /** How many at most. */
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(200)
  limit: number = 50;

  /** `next` of the page before; left out: the first page. */
  @IsOptional()
  @IsString()
  after?: string;
}
