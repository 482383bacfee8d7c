import { ApiProperty } from '@nestjs/swagger';
import { OUTCOMES, type Outcome } from '../plan/error-rates.js';
import { WalkPartDto } from '../walks/walk.dto.js';

/** What was said last of a node. */
export class JobMarkDto {
  node!: string;

  @ApiProperty({ enum: OUTCOMES })
  outcome!: Outcome;
}

export class JobNodeDto {
  node!: string;
  fedFrom!: string | null;
  isStation!: boolean;
  /** @example "Room 9" */
  words!: string;
  cableMetres!: number;
}

/** A trunk to be drawn: every node after the one that feeds it. */
export class JobTrunkDto {
  trunk!: string;
  nodes!: JobNodeDto[];
  marks!: JobMarkDto[];
  /** The node into which the likeliest span leads; null: none is on this trunk. */
  lookAt!: string | null;
}

/** A part that may be needed. */
export class JobPartDto extends WalkPartDto {
  /** Whether the technician's van has it; null: nobody said what the van carries, or nobody goes yet. */
  @ApiProperty({ type: Boolean, nullable: true })
  isInVan!: boolean | null;
}

/** One ticket of the visit. */
export class JobTicketDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  number!: number;

  /** What was said last of each room and function, with who said it: at most 200, what is silent and the latest before all else. */
  said!: string[];

  /** So much more was said, and stands at the ticket. */
  furtherSaid!: number;

  /** Where to go first, and why; null where the evidence contradicts itself altogether. */
  first!: string | null;

  /** The places that account for most, at most three, in words. */
  places!: string[];

  /** What to try on site, the most telling first. */
  checks!: string[];

  /** What to do step by step, a line each. */
  plan!: string[];
  expectedMinutes!: number | null;
  walkTestMinutes!: number | null;

  /** Most needed first. */
  parts!: JobPartDto[];
  secondTripChance!: number | null;
  trunks!: JobTrunkDto[];
}

/** An earlier visit to the site. */
export class JobVisitDto {
  @ApiProperty({ format: 'date' })
  on!: string;
  technician!: string | null;
  purpose!: string;
  workDone!: string | null;
}

export class JobSiteDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  name!: string;
  address!: string | null;

  /** Access, and what whoever goes there must know. */
  safetyNotes!: string | null;
  servesEmergencyCalls!: boolean;
}

/** All that somebody takes along to a site. It advises; the person on site decides. */
export class JobSheetDto {
  @ApiProperty({ format: 'uuid' })
  visitId!: string;

  @ApiProperty({ format: 'date' })
  on!: string;

  /** By the site's clock; null: some time of the day. */
  fromTime!: string | null;
  untilTime!: string | null;
  technician!: string | null;
  purpose!: string;

  /** Whether every room is to be gone through. */
  upkeep!: boolean;
  site!: JobSiteDto;

  /** Those that are open, at most ten, the oldest first. */
  tickets!: JobTicketDto[];

  /** Numbers of further ones. */
  furtherTickets!: number[];
  cautions!: string[];

  /** The latest first. */
  lastVisits!: JobVisitDto[];
  madeAt!: Date;
}
