import { ApiProperty } from '@nestjs/swagger';
import { PlaceDto } from '../sites/place.dto.js';

/** Something that was found at fault at a site. */
export class FoundAtSiteDto {
  /** The entry of the ticket’s log. */
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  ticketNumber!: number;

  /** By the codes that the record had then. */
  @ApiProperty({ type: PlaceDto })
  place!: PlaceDto;

  /** @example "junction-in" */
  @ApiProperty({ type: String, nullable: true })
  component!: string | null;

  /** @example "open-speech" */
  @ApiProperty({ type: String, nullable: true })
  mode!: string | null;

  foundBy!: string;
  foundAt!: Date;
}

export class FoundAtSiteListDto {
  /** Newest first; at most 500. */
  items!: FoundAtSiteDto[];

  /** How many older ones are left out. */
  more!: number;
}
