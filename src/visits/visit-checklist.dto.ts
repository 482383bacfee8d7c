import { ApiProperty } from '@nestjs/swagger';
import { FUNCTIONS, type FunctionName } from '../plan/functions.js';

export class ChecklistFunctionDto {
  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;

  /** When a walk test of the visit heard it; null: not yet. */
  testedAt!: Date | null;
}

/** A station with what is to be heard there. */
export class ChecklistRoomDto {
  trunk!: string;
  node!: string;
  room!: string | null;
  floor!: string | null;
  block!: string | null;

  @ApiProperty({ type: [ChecklistFunctionDto] })
  functions!: ChecklistFunctionDto[];
}

/** The walk test of a whole site, ticked by those that were entered on a visit. */
export class VisitChecklistDto {
  @ApiProperty({ format: 'uuid' })
  visitId!: string;

  /** Functions at stations. */
  toHear!: number;
  heard!: number;
  missing!: number;

  /** In the order of the cables. */
  @ApiProperty({ type: [ChecklistRoomDto] })
  rooms!: ChecklistRoomDto[];
}
