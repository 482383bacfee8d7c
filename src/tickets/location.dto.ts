import { ApiProperty } from '@nestjs/swagger';
import { LocatedPlaceDto, LocateResultDto } from './locate-result.dto.js';

/** A station that a fault would silence. */
export class RoomDto {
  trunk!: string;
  node!: string;
  room!: string | null;
}

/** The chance that one component of a place is faulty. */
export class ComponentFaultDto {
  /** @example "junction-in" */
  component!: string;
  /** @example "terminals at Room 13 IN" */
  words!: string;
  /** @example 0.41 */
  faulty!: number;
}

export class PlaceInWordsDto {
  /** @example "between Room 12 and Room 13 on trunk A, 83 %" */
  words!: string;
  place!: LocatedPlaceDto;
  probability!: number;
  components!: ComponentFaultDto[];
  /** The stations that would be silent if it has failed altogether. */
  silentIfSo!: RoomDto[];
}

/** Where a ticket's trouble lies. The locator advises; the person on site decides. */
export class LocationDto {
  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  /** The as-built record it was worked out on. */
  asBuiltVersion!: number;

  /** Days since the parts were last proven good. */
  exposureDays!: number;

  /** @example "the last closed ticket of this site" */
  exposureSince!: string;

  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  observationsUsed!: string[];

  /** Said again later by the same person, from before a mending, or not on the drawing. */
  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  observationsLeftOut!: string[];

  /** The likeliest places, in words. */
  places!: PlaceInWordsDto[];

  result!: LocateResultDto;
}
