import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsInt,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { IsInstant } from '../shared/is-instant.js';
import { PointDto, ReportedDto } from '../reports/report.dto.js';
import { WithdrawalDto } from '../reports/withdrawal.dto.js';

/** A walk test on a visit: what was tried, and what came of it. */
export class VisitWalkTestDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  /** @example "Ilvo Marsh" */
  @MaxLength(200)
  @IsName()
  @IsString()
  testedBy!: string;

  /** Left out: now. */
  @IsOptional()
  @IsInstant()
  testedAt?: Date;

  /** What works is kept as proof. What does not belongs on a ticket: it is refused here, with the whole test. */
  @ArrayMaxSize(5000)
  @ArrayMinSize(1)
  @IsArray()
  @Type(() => ReportedDto)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  observations!: ReportedDto[];
}

/** A walk test as it is kept. */
export class KeptWalkTestDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  @ApiProperty({ format: 'uuid' })
  visitId!: string;
  testedAt!: Date;
  testedBy!: string;
  recordedAt!: Date;

  /** What was shown to work. */
  @ApiProperty({ type: [PointDto] })
  proven!: PointDto[];

  /** Who took it back, when and why: it proves nothing any more. Null where nobody did. */
  @ApiProperty({ type: WithdrawalDto, nullable: true })
  withdrawal!: WithdrawalDto | null;
}

/** Which walk tests of a visit: each may be of 5,000 points. */
export class WalkTestQueryDto {
  /** How many at most. */
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(20)
  limit: number = 10;

  /** `next` of the page before; left out: the first page. */
  @IsOptional()
  @IsString()
  after?: string;
}

export class KeptWalkTestPageDto {
  @ApiProperty({ type: [KeptWalkTestDto] })
  items!: KeptWalkTestDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
