import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import {
  type Core,
  CORES,
  LOOP_CORES,
  MAX_LOOPS_OF_ONE_CORE,
  READING_KINDS,
  READING_REACH,
  type RequestReading,
} from '../locator/index.js';

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
