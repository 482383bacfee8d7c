import { ApiProperty } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { IsInstant } from '../shared/is-instant.js';

export class ReliabilityQueryDto {
  /** Only tickets of this site. */
  @IsOptional()
  @IsUUID()
  site?: string;

  /** Only tickets closed at this instant or later. */
  @IsOptional()
  @IsInstant()
  from?: Date;

  /** Only tickets closed before this instant. */
  @IsOptional()
  @IsInstant()
  until?: Date;
}

/** How often the place where something was found first had been named; shares are null without cases. */
export class HitRatesDto {
  cases!: number;
  /** It was named first. */
  first!: number;
  /** It was among the first three. */
  firstThree!: number;
  @ApiProperty({ type: Number, nullable: true, example: 0.72 })
  firstShare!: number | null;
  @ApiProperty({ type: Number, nullable: true, example: 0.91 })
  firstThreeShare!: number | null;
}

/** One stated chance of the reliability curve. */
export class ReliabilityPointDto {
  /** @example 0.6 */
  stated!: number;
  /** How many forecasts stated it. */
  count!: number;
  /** How often those came true, by the isotonic fit. */
  observed!: number;
  /** Where `observed` lies if the stated chances are right. */
  low!: number;
  high!: number;
}

/** How the band of the curve was drawn. */
export class ReliabilityBandDto {
  /** Share of honest curves that the band holds at each point. */
  coverage!: number;
  resamples!: number;
  /** The same record always draws the same band. */
  seed!: number;
}

/** How right it was: what was predicted when somebody was sent, held against what was found. */
export class ReliabilityDto {
  /** Tickets that were closed in the period. */
  tickets!: number;
  /** Sendings in which nothing was found; they are in none of the figures. */
  nothingFound!: number;
  /** Findings before which nothing was predicted; they are in none of the figures. */
  notPredicted!: number;
  hits!: HitRatesDto;
  /** Cases whose place had not been thought of; they have no log score. */
  notListed!: number;

  /** Mean of -log2 of the chance that the place found had; 0 is perfect, 1 is a coin; null without cases. */
  @ApiProperty({ type: Number, nullable: true, example: 0.8 })
  logScoreBits!: number | null;

  /** From the first three places of each case, by stated chance. */
  curve!: ReliabilityPointDto[];
  band!: ReliabilityBandDto;
}
