import { ApiProperty } from '@nestjs/swagger';

/** Mean time between failures, with limits of the record alone; null without failures: nothing bounds it. */
class MtbfLimitsDto {
  mtbfHours!: number | null;
  lowHours!: number;
  highHours!: number | null;
}

export class SiteMtbfDto extends MtbfLimitsDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  failures!: number;
}

export class MtbfPosteriorDto {
  shape!: number;
  hours!: number;
  medianHours!: number;
  lowHours!: number;
  highHours!: number;
}

export class GrowthDto {
  /** Above 0: failures grow rarer. */
  growth!: number;
  /** At the end of the record. */
  mtbfHours!: number;
}

/** Were there no trend, the chance of a record that speaks as strongly for one. */
export class TrendTestDto {
  statistic!: number;
  pRarer!: number;
  pMoreFrequent!: number;
}

export class TrendTestsDto {
  failures!: number;

  @ApiProperty({ type: TrendTestDto, nullable: true })
  laplace!: TrendTestDto | null;

  @ApiProperty({ type: TrendTestDto, nullable: true })
  logSum!: TrendTestDto | null;

  @ApiProperty({ type: TrendTestDto, nullable: true })
  reverseArrangements!: TrendTestDto | null;

  /** `few`: only a strong trend would be seen. `too-few`: none could be. */
  @ApiProperty({ enum: ['too-few', 'few', null], type: String, nullable: true })
  warning!: 'too-few' | 'few' | null;
}

/** How often something fails, by all that is on record; hours are those of the calendar. */
export class ReliabilityFiguresDto extends MtbfLimitsDto {
  /** From here on there is a record. */
  @ApiProperty({ format: 'date' })
  since!: string;
  until!: Date;

  /** Of all limits, two-sided. */
  confidence!: number;

  /** Of all sites together. */
  siteHours!: number;

  /** Tickets on which something was found and mended. */
  failures!: number;

  /** Gamma prior of the failure rate of a site. */
  priorShape!: number;
  priorHours!: number;

  /** `firm`: as it was said in the request. */
  @ApiProperty({ enum: ['firm', 'model'] })
  priorFrom!: 'firm' | 'model';

  /** What is thought of a site after the record. */
  posterior!: MtbfPosteriorDto;

  /** Null with fewer than two failures. */
  @ApiProperty({ type: GrowthDto, nullable: true })
  growth!: GrowthDto | null;

  trend!: TrendTestsDto;

  /** Mean of the tickets of the year, by the calendar; null: none was restored. */
  hoursToRestore!: number | null;

  /** Of a site as a whole: MTBF over MTBF and hours to restore. */
  availability!: number | null;

  @ApiProperty({ type: [SiteMtbfDto] })
  sites!: SiteMtbfDto[];
}
