import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsIn,
  IsInt,
  IsNotEmpty,
  IsNumber,
  IsOptional,
  IsString,
  IsUUID,
  Max,
  MaxLength,
  Min,
  ValidateNested,
  IsObject,
} from 'class-validator';
import { IsDay } from '../shared/is-day.js';
import { PlaceDto } from '../sites/place.dto.js';
import { type Answer, ANSWERS } from '../reports/ask-first.js';
import { RemarkedDto, SaidDto } from '../reports/report.dto.js';

/** How a check of the walk ended, by the walk’s own names. */
export class EndedStepDto {
  /**
   * As `records` of `GET /tickets/{id}/walk` name it; or a look at how the trunk is laid: `cables ["A","A9"]`, which ends with how many cables
   * enter or leave there, or `names ["A","A9","A10"]`, which ends with 0 where the doors have the names as drawn, 1 where they have each other’s.
   */
  @MaxLength(200)
  @IsNotEmpty()
  @IsString()
  check!: string;

  @Max(20)
  @Min(0)
  @IsInt()
  ending!: number;
}

/** Something said about a ticket that is none of the other kinds of entry. */
export class NoteDto extends SaidDto {
  @MaxLength(5000)
  @IsNotEmpty()
  @IsString()
  note!: string;

  /** Of a check of the walk that is no evidence by itself: the walk goes by it until the next mending. */
  @IsOptional()
  @Type(() => EndedStepDto)
  @ValidateNested()
  @IsObject()
  @ApiProperty({ type: EndedStepDto, required: false })
  step?: EndedStepDto;
}

/** The answer to one of the questions that need no visit. */
export class AnswerDto extends RemarkedDto {
  /**
   * That of a group of stations ends with its name, as in `group-on:upper floor`.
   * @example "head-end-on"
   */
  @MaxLength(300)
  @IsString()
  question!: string;

  @IsIn(ANSWERS)
  answer!: Answer;
}

/** What was found: a place, perhaps its component and how it failed; or nothing. */
export class FindingDto extends RemarkedDto {
  /** Null or left out: nothing was found. */
  @IsOptional()
  @Type(() => PlaceDto)
  @ValidateNested()
  @IsObject()
  @ApiProperty({ type: PlaceDto, required: false, nullable: true })
  place?: PlaceDto | null = null;

  /** @example "junction-in" */
  @IsOptional()
  @IsString()
  component?: string | null = null;

  /**
   * How it had failed, by the names of the fault model.
   * @example "open-speech"
   */
  @IsOptional()
  @IsString()
  mode?: string | null = null;

  /** Minutes spent looking. */
  @IsOptional()
  @Max(10_000)
  @Min(0)
  @IsInt()
  minutes?: number | null = null;
}

/** A part that was used. */
export class PartDto {
  /** @example "four-way terminal block" */
  @MaxLength(200)
  @IsNotEmpty()
  @IsString()
  name!: string;

  /** @example 2 */
  @Max(100_000)
  @Min(0)
  @IsNumber()
  quantity!: number;
}

/** What was done about it. */
export class MendingDto extends RemarkedDto {
  /** `temporary`, such as a station bridged over: a follow-up visit is due. */
  @IsIn(['lasting', 'temporary'])
  mending!: 'lasting' | 'temporary';

  /** @example "Terminals at Room 13 IN remade" */
  @MaxLength(2000)
  @IsNotEmpty()
  @IsString()
  what!: string;

  @IsOptional()
  @ArrayMaxSize(100)
  @IsArray()
  @Type(() => PartDto)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  parts: PartDto[] = [];

  /** Minutes spent mending. */
  @IsOptional()
  @Max(10_000)
  @Min(0)
  @IsInt()
  minutes?: number | null = null;

  /** With a temporary mending: the day by which somebody must come back. */
  @IsOptional()
  @IsDay()
  @ApiProperty({ format: 'date', type: String, nullable: true, default: null })
  followUpDueOn?: string | null = null;
}

/** Where a person takes a ticket. Mended states come from recording a mending, merging from merging. */
export class MoveDto extends RemarkedDto {
  @IsIn(['reported', 'to-visit', 'at-work', 'closed'])
  to!: 'reported' | 'to-visit' | 'at-work' | 'closed';

  /** Why: needed to close without proof, to send somebody without asking first, and to reopen. */
  @IsOptional()
  @MaxLength(2000)
  @IsString()
  reason?: string | null = null;
}

/** Has a ticket go by the newest version of its site's record. */
export class NewerRecordDto extends RemarkedDto {
  /**
   * That version, as you have read it: the site's `asBuiltVersion`.
   * @example 3
   */
  @Max(1_000_000_000)
  @Min(1)
  @IsInt()
  asBuiltVersion!: number;
}

export class MergeDto extends RemarkedDto {
  /** The ticket that gets the reports. */
  @IsUUID()
  into!: string;
}

export class SplitDto extends RemarkedDto {
  /** The observations that a ticket of their own is opened for. */
  @ArrayMaxSize(5000)
  @ArrayMinSize(1)
  @IsArray()
  @IsUUID(undefined, { each: true })
  observationIds!: string[];
}
