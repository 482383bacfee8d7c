import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  IsIn,
  IsNotEmpty,
  IsNumber,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import {
  LOOP_CORES,
  MAX_LOOPS_OF_ONE_CORE,
  READING_KINDS,
  READING_REACH,
  type RequestReading,
} from '../locator/index.js';
import { type Core, CORES } from '../plan/cores.js';
import { InformantDto } from '../reports/report.dto.js';
import { IsInstant } from '../shared/is-instant.js';
import { ENTERED_KINDS, type EnteredKind, type EnteredLoopCore } from './entered-reading.js';

/** A number that somebody measured. Which fields it has goes by its kind. */
export class LocateReadingDto {
  @ApiProperty({ enum: READING_KINDS, example: 'loop-ohms' })
  kind!: RequestReading['kind'];

  /** @example "A" */
  trunk!: string;

  /** Of `supply-volts`: the station or junction box where it was read. */
  node?: string;

  @ApiPropertyOptional({
    description: `Of \`supply-volts\`: between supply and return, up to ${READING_REACH} times the source either way.`,
  })
  volts?: number;

  /** Of `supply-volts`: standard uncertainty of this reading alone; above 0. */
  uncertaintyVolts?: number;

  @ApiPropertyOptional({
    enum: LOOP_CORES,
    description: 'Of `loop-ohms`: the core that was measured against return, from the port.',
    example: 'speech',
  })
  core?: (typeof LOOP_CORES)[number];

  @ApiPropertyOptional({
    description:
      `Of \`loop-ohms\`: 0 to ${READING_REACH} times the loop to the trunk’s far end; ` +
      `at most ${MAX_LOOPS_OF_ONE_CORE} readings of one core of one trunk.`,
    example: 0.42,
  })
  ohms?: number;

  @ApiPropertyOptional({
    description: 'Of `loop-ohms`: standard uncertainty of this reading alone; above 0.',
    example: 0.05,
  })
  uncertaintyOhms?: number;

  /** Of `continuity`: a node nearer to the head-end on the path to `to`; null or left out: the port. */
  @ApiProperty({ type: String, nullable: true, required: false })
  from?: string | null;

  /** Of `continuity`. */
  to?: string;

  @ApiPropertyOptional({
    enum: CORES,
    isArray: true,
    description: 'Of `continuity`: the cores tested together.',
  })
  cores?: Core[];

  /** Of `continuity`: whether all the cores get through. */
  passes?: boolean;
}

/** A reading that is taken about a ticket, as the locator takes it. */
export class TakeReadingDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  id?: string;

  /** Who read it. */
  @Type(() => InformantDto)
  @ValidateNested()
  @IsObject()
  @IsNotEmpty()
  @ApiProperty({ type: InformantDto })
  takenBy!: InformantDto;

  /** When it was so; left out: now. */
  @IsOptional()
  @IsInstant()
  takenAt?: Date;

  /**
   * What was read and where, by the codes of the ticket's as-built record. The last one that somebody takes of the same
   * thing stands for those before it.
   */
  @IsObject()
  @ApiProperty({ type: LocateReadingDto })
  reading!: object;

  /** Anything else that was said. */
  @IsOptional()
  @MaxLength(5000)
  @IsString()
  note?: string | null = null;
}

/** A number that is entered on a visit. Where: a trunk, perhaps its node, or a place in words, or both. */
export class CreateReadingDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  @IsIn(ENTERED_KINDS)
  kind!: EnteredKind;

  /** @example "A" */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  trunk: string | null = null;

  /** @example "A12" */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  node: string | null = null;

  /** @example "head-end, terminals of port 1" */
  @IsOptional()
  @MaxLength(200)
  @IsNotEmpty()
  @IsString()
  place: string | null = null;

  /**
   * Of `loop-ohms`: the core that was measured against return, from the head-end; without it a loop is no evidence.
   * @example "speech"
   */
  @IsOptional()
  @IsIn(LOOP_CORES)
  @ApiProperty({ enum: [...LOOP_CORES, null], type: String, nullable: true, required: false })
  core: EnteredLoopCore | null = null;

  /**
   * The number as it is read, with a point or a comma.
   * @example "23.1"
   */
  @MaxLength(30)
  @IsString()
  entered!: string;

  /**
   * Left out: the usual one of the kind. Of `other` it must be given.
   * @example "V"
   */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  unit: string | null = null;

  /** Standard uncertainty in the same unit, where it is known. */
  @IsOptional()
  @Min(0)
  @IsNumber()
  uncertainty: number | null = null;

  /** Left out: now. */
  @IsOptional()
  @IsInstant()
  takenAt?: Date;

  /** @example "Ilvo Marsh" */
  @MaxLength(200)
  @IsName()
  @IsString()
  takenBy!: string;

  @IsOptional()
  @MaxLength(2000)
  @IsString()
  note: string | null = null;
}
