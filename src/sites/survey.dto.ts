import { ApiProperty, OmitType } from '@nestjs/swagger';
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
  MaxLength,
  ValidateNested,
  IsObject,
} from 'class-validator';
import { NODE_KINDS, type NodeKind } from '../drawing/drawn-node.js';

/** One core of the cable: its size and class, its gauge, or what was measured. */
export class ConductorDto {
  /** @example "iec-60228" */
  @IsIn(['iec-60228', 'awg', 'measured'])
  kind!: 'iec-60228' | 'awg' | 'measured';

  /**
   * Of `iec-60228`: 0.5 to 16 mm².
   * @example 1
   */
  @IsOptional()
  @IsNumber()
  squareMillimetres?: number;

  /** Of `iec-60228`: 1 solid, 2 stranded, 5 flexible. */
  @IsOptional()
  @IsIn([1, 2, 5])
  conductorClass?: 1 | 2 | 5;

  /** Of `awg`: -3 (4/0) to 40. */
  @IsOptional()
  @IsInt()
  gauge?: number;

  /** Of `measured`: one core, at `celsius`. */
  @IsOptional()
  @IsNumber()
  ohmsPerKm?: number;

  /** Of `measured`: the core's temperature then. */
  @IsOptional()
  @IsNumber()
  celsius?: number;
}

/** A cable at a temperature. */
export class CableDto {
  @Type(() => ConductorDto)
  @ValidateNested()
  @IsObject()
  @IsNotEmpty()
  conductor!: ConductorDto;

  /** Of the cable in use. */
  @IsNumber()
  celsius: number = 20;
}

/** The supply of a trunk, and what its stations draw: amps, or watts where each has a switching supply. */
export class SupplyDto extends CableDto {
  /** Left out, for a stored trunk: the head-end's. */
  @IsOptional()
  @IsNumber()
  @ApiProperty({ required: false, example: 24 })
  sourceVolts?: number;

  /** The supply's internal resistance. */
  @IsNumber()
  sourceOhms: number = 0;

  /** What every station draws; either this or `stationWatts`. */
  @IsOptional()
  @IsNumber()
  @ApiProperty({ required: false, example: 0.08 })
  stationAmps?: number;

  @IsOptional()
  @IsNumber()
  stationWatts?: number;

  /** The least at which a station works. */
  @IsNumber()
  @ApiProperty({ example: 18 })
  minimumVolts!: number;
}

/** What is asked about a trunk of the record; what is left out of it is the head-end's. */
export class StoredSupplyDto extends OmitType(SupplyDto, ['conductor', 'sourceOhms'] as const) {
  @IsOptional()
  @Type(() => ConductorDto)
  @ValidateNested()
  @IsObject()
  @ApiProperty({ type: ConductorDto, required: false })
  conductor?: ConductorDto;

  /** The supply's internal resistance; 0 where the record does not say it either. */
  @IsOptional()
  @IsNumber()
  sourceOhms?: number;
}

export class SurveyNodeDto {
  /** @example "A1" */
  @MaxLength(200)
  @IsNotEmpty()
  @IsString()
  id!: string;

  @IsIn(NODE_KINDS)
  kind: NodeKind = 'station';

  /** The node that feeds it; null: the head-end; left out: the node before it. */
  @IsOptional()
  @IsString()
  @ApiProperty({ type: String, nullable: true, required: false })
  fedFrom?: string | null;

  /** @example 9.5 */
  @IsNumber()
  cableMetres!: number;
}

/** A trunk as drawn, before or after it is laid. */
export class SurveyRequestDto extends SupplyDto {
  @ArrayMaxSize(2000)
  @ArrayMinSize(1)
  @IsArray()
  @Type(() => SurveyNodeDto)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  nodes!: SurveyNodeDto[];
}

export class SurveyedStationDto {
  id!: string;
  /** Along the cable from the head-end. */
  cableMetres!: number;
  volts!: number;
  /** Above the least that it works at; negative: it would not work. */
  marginVolts!: number;
}

export class SurveyedCoreDto {
  /** One core at 20 °C. */
  ohmsPerKmAt20!: number;
  /** `maximum`: what no sound cable of its class exceeds. */
  @ApiProperty({ enum: ['measured', 'maximum', 'nominal'] })
  figure!: 'measured' | 'maximum' | 'nominal';
  /** Go and return, at the temperature asked for. */
  loopOhmsPerMetre!: number;
}

export class LongestTrunkDto {
  stations!: number;
  cableMetres!: number;
  lastVolts!: number;
}

export class SmallestConductorDto {
  squareMillimetres!: number;
  /** Of the station that gets least. */
  marginVolts!: number;
}

/** What is to be expected with every station drawing. */
export class SurveyDto {
  core!: SurveyedCoreDto;
  portVolts!: number;
  portAmps!: number;
  @ApiProperty({ type: [SurveyedStationDto] })
  stations!: SurveyedStationDto[];

  /** The station that gets least; null without stations. */
  @ApiProperty({ type: SurveyedStationDto, nullable: true })
  last!: SurveyedStationDto | null;

  /** Of equal stations at this trunk's mean span, in a row; null: more than 4,096. */
  @ApiProperty({ type: LongestTrunkDto, nullable: true })
  longest!: LongestTrunkDto | null;

  /** The smallest of IEC 60228, class 5 unless another is asked for, that would do; null: none of the table. */
  @ApiProperty({ type: SmallestConductorDto, nullable: true })
  smallest!: SmallestConductorDto | null;

  /** The supply is above what separated extra-low voltage may be (120 V d.c.). A figure, no verdict that less is safe. */
  aboveExtraLowVoltage!: boolean;
}

/** A loop resistance measured from the head-end to a short; uncertainties are standard ones. */
export class DistanceRequestDto extends CableDto {
  @IsNumber()
  @ApiProperty({ example: 4.16 })
  loopOhms!: number;

  @IsNumber()
  @ApiProperty({ example: 0.05 })
  uncertaintyOhms!: number;

  /** Of the short itself and the test leads. */
  @IsNumber()
  contactOhms: number = 0;

  @IsNumber()
  uncertaintyContactOhms: number = 0;

  @IsNumber()
  uncertaintyCelsius: number = 0;

  /** Of the core's ohm/km, as a share. */
  @IsNumber()
  uncertaintyCoreShare: number = 0;
}

export class DistanceDto {
  /** Along the cable. */
  metres!: number;
  uncertaintyMetres!: number;
  /** About 95 %. */
  lowMetres!: number;
  highMetres!: number;
  /** The core's figure is a maximum: `metres` comes out short, `highMetres` allows for it. */
  isBiasedShort!: boolean;
}

/** A bridge balanced on a loop of a faulty core and a sound one, joined at the far end. */
export class LoopBridgeRequestDto {
  @IsIn(['murray', 'varley'])
  kind!: 'murray' | 'varley';

  @IsNumber()
  @ApiProperty({ example: 1000 })
  ohmsP!: number;

  /** The ratio arm next to the faulty core. */
  @IsNumber()
  @ApiProperty({ example: 250 })
  ohmsQ!: number;

  /** Both cores together. */
  @IsNumber()
  @ApiProperty({ example: 400 })
  loopMetres!: number;

  /** Of `varley`: in series with the faulty core at balance. */
  @IsOptional()
  @IsNumber()
  ohmsS?: number;

  /** Of `varley`: the whole loop. */
  @IsOptional()
  @IsNumber()
  loopOhms?: number;
}

export class LoopBridgeDto {
  /** From the test end to the fault. */
  metres!: number;
  /** Of the faulty core up to the fault; null where the test does not tell. */
  ohms!: number | null;
}
