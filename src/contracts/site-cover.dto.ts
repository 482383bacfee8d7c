import { ApiProperty } from '@nestjs/swagger';
import { CONTRACT_KINDS, type ContractKind } from './contract-kinds.js';

/** A contract as far as it says what is covered at a site. */
export class CoverPeriodDto {
  @ApiProperty({ format: 'uuid' })
  contractId!: string;
  title!: string;

  @ApiProperty({ enum: CONTRACT_KINDS })
  kind!: ContractKind;

  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;
  exclusions!: string | null;
}

/** Days on end that are covered by none, or by several. */
export class CoverFlawDto {
  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  @ApiProperty({ type: [String], format: 'uuid' })
  contractIds!: string[];
}

export class SiteCoverDto {
  /** Every contract that covers or covered the site, oldest first. */
  periods!: CoverPeriodDto[];

  /** The contract in force today; null: none. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  inForce!: string | null;

  /** Between the first covered day and the last. */
  gaps!: CoverFlawDto[];
  overlaps!: CoverFlawDto[];
}
