import { applyDecorators } from '@nestjs/common';
import { ApiProperty, PartialType } from '@nestjs/swagger';
import { IsNumber, IsOptional, Max, Min } from 'class-validator';
import { WORK_TIME_NAMES, type WorkTimeName } from './work-times.js';

const LONGEST_MINUTES = 600;

/** Minutes as the firm says; null: as usual, at the firm's pace. */
function Minutes(): PropertyDecorator {
  return applyDecorators(
    ApiProperty({ type: Number, minimum: 0, maximum: LONGEST_MINUTES, nullable: true }),
    IsOptional(),
    Max(LONGEST_MINUTES),
    Min(0),
    IsNumber(),
  );
}

/** How long work takes as the firm says, in minutes. */
export class WorkTimesFieldsDto implements Record<WorkTimeName, number | null> {
  /** With tools and a ladder, along corridors. */
  @Minutes()
  walkHundredMetres: number | null = null;

  @Minutes()
  climbFloor: number | null = null;

  /** To be let in to the head-end. */
  @Minutes()
  enterHeadEnd: number | null = null;

  /** To be let into a room. */
  @Minutes()
  enterRoom: number | null = null;

  /** To get at a junction box above a ceiling. */
  @Minutes()
  reachJunctionBox: number | null = null;

  /** To wait until a room can be disturbed, on average. */
  @Minutes()
  waitForLesson: number | null = null;

  @Minutes()
  setUpLadder: number | null = null;

  /** Before a head-end or a joint is opened. */
  @Minutes()
  isolateAndProveDead: number | null = null;

  @Minutes()
  lookAtLamp: number | null = null;

  @Minutes()
  listen: number | null = null;

  @Minutes()
  measure: number | null = null;

  /** To disconnect part of a trunk, see what comes back, and connect it again. */
  @Minutes()
  disconnect: number | null = null;

  @Minutes()
  lookAtFuse: number | null = null;

  @Minutes()
  openHeadEnd: number | null = null;

  @Minutes()
  openTerminals: number | null = null;

  /** To get at a run of cable; following it comes on top. */
  @Minutes()
  openCableRun: number | null = null;

  /** Of cable along ceilings and ducts. */
  @Minutes()
  followTenMetres: number | null = null;

  @Minutes()
  openStation: number | null = null;

  @Minutes()
  mendHeadEnd: number | null = null;

  @Minutes()
  mendFuse: number | null = null;

  @Minutes()
  mendTerminals: number | null = null;

  @Minutes()
  mendCable: number | null = null;

  @Minutes()
  mendStation: number | null = null;

  /** To prove one room when all is mended. */
  @Minutes()
  walkTestRoom: number | null = null;

  /** What going away for a part and coming back costs. */
  @Minutes()
  secondTrip: number | null = null;
}

/** A merge patch (RFC 7396): what is left out stays, null goes back to what is usual. */
export class PatchWorkTimesDto extends PartialType(WorkTimesFieldsDto) {}

/** One of the times. */
export class WorkTimeDto {
  @ApiProperty({ enum: WORK_TIME_NAMES })
  name!: WorkTimeName;

  /** What plans go by. */
  minutes!: number;

  /** Common practice, no source. */
  usualMinutes!: number;

  /** `own`: the firm said so. `learned`: as usual, at the pace of the firm's own visits. */
  @ApiProperty({ enum: ['own', 'learned', 'usual'] })
  from!: 'own' | 'learned' | 'usual';
}

/** How long work on site takes. */
export class WorkTimesDto {
  @ApiProperty({ type: [WorkTimeDto] })
  items!: WorkTimeDto[];

  /** The usual times so, as the firm's own call-outs have shown; drawn towards 1 where they are few. */
  paceFactor!: number;

  /** Call-outs that were learned from, with a finding or a mending; the newest 500 are looked at. */
  paceVisits!: number;

  /** Goes up with each change; the ETag. 0: nobody has said anything. */
  version!: number;
}
