import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsIn,
  IsNotEmpty,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
  ValidateNested,
  IsObject,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { IsInstant } from '../shared/is-instant.js';
import {
  INFORMANT_KINDS,
  type InformantKind,
  type Outcome,
  OUTCOMES,
} from '../plan/error-rates.js';
import { type FunctionName, FUNCTIONS } from '../plan/functions.js';
import { ODDITIES, type Oddity } from './oddities.js';

/** A station's function, by the codes of the as-built record. */
export class PointDto {
  /** @example "A" */
  @MaxLength(20)
  @IsString()
  trunk!: string;

  /** @example "A13" */
  @MaxLength(20)
  @IsString()
  node!: string;

  /** @example "announcement" */
  @IsIn(FUNCTIONS)
  function!: FunctionName;
}

const REPORTED_OUTCOMES = [...OUTCOMES, 'not-checked'] as const;

/** One thing that was heard or not. */
export class ReportedDto extends PointDto {
  /** What came of it; `not-checked`: on the list, but nobody listened. */
  @IsIn(REPORTED_OUTCOMES)
  outcome!: Outcome | 'not-checked';

  /**
   * A node of the trunk: all cable that leaves it was disconnected there meanwhile. By a technician; what is silent then is
   * no complaint, and not a word about the trunk as it is used.
   * @example "A9"
   */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  disconnectedBelow?: string | null = null;
}

/** Who says so. */
export class InformantDto {
  /** @example "Mara Quill, school office" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  @IsIn(INFORMANT_KINDS)
  kind!: InformantKind;
}

/** What every entry of a ticket's log says of itself. */
export class SaidDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  id?: string;

  @Type(() => InformantDto)
  @ValidateNested()
  @IsObject()
  @IsNotEmpty()
  @ApiProperty({ type: InformantDto })
  saidBy!: InformantDto;

  /** When it was so; left out: now. */
  @IsOptional()
  @IsInstant()
  saidAt?: Date;
}

/** An entry that may have a remark beside what it is about. */
export class RemarkedDto extends SaidDto {
  /** Anything else that was said. */
  @IsOptional()
  @MaxLength(5000)
  @IsString()
  note?: string | null = null;
}

/** What somebody says about the rooms of a site. */
export class ReportDto extends RemarkedDto {
  /** `gone-through`: a list of rooms, one by one; `volunteered`: "room 14 is dead". */
  @IsIn(['gone-through', 'volunteered'])
  how!: 'gone-through' | 'volunteered';

  /** At least one; none where the site has no as-built record yet, and the note says all. */
  @ArrayMaxSize(5000)
  @IsArray()
  @Type(() => ReportedDto)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  observations!: ReportedDto[];

  /**
   * Why it cannot wait; shown beside the ticket.
   * @example "Examinations begin at nine"
   */
  @IsOptional()
  @MaxLength(200)
  @IsNotEmpty()
  @IsString()
  urgentReason?: string | null = null;

  /** A telephone number on which whoever reports can be called back. */
  @IsOptional()
  @MaxLength(40)
  @IsNotEmpty()
  @IsString()
  callBackPhone?: string | null = null;

  /** What else was odd, where something was heard. Kept in words; no evidence for a place. */
  @IsOptional()
  @IsIn(ODDITIES, { each: true })
  @ArrayUnique()
  @ArrayMaxSize(ODDITIES.length)
  @IsArray()
  oddities?: Oddity[] = [];
}

/** What was seen to work, or not, after mending. */
export class WalkTestDto extends RemarkedDto {
  @ArrayMaxSize(5000)
  @ArrayMinSize(1)
  @IsArray()
  @Type(() => ReportedDto)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  observations!: ReportedDto[];
}
