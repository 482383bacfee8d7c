import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
  ValidateNested,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { IsInstant } from '../shared/is-instant.js';
import { PointDto, ReportedDto } from '../reports/report.dto.js';

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
}

export class KeptWalkTestListDto {
  @ApiProperty({ type: [KeptWalkTestDto] })
  items!: KeptWalkTestDto[];
}
