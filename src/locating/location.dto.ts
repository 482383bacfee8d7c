import { ApiProperty } from '@nestjs/swagger';
import {
  AlsoBrokenDto,
  ContradictionDto,
  DrawingDoubtDto,
  FirstStepDto,
  GroupedTroubleDto,
  RoomDto,
} from './answer.dto.js';
import { CheckToMakeDto, SurpriseDto } from './checks.dto.js';
import { JointCandidateDto, LocateResultDto, StretchSpanDto } from './locate-result.dto.js';
import { LocatedPlaceDto } from './troubles.dto.js';

/** The chance that one component of a place is what is the matter. */
export class ComponentFaultDto {
  /** @example "junction-in" */
  component!: string;
  /** @example "terminals at Room 13 IN" */
  words!: string;
  /** @example 0.41 */
  faulty!: number;
}

export class PlaceInWordsDto {
  /**
   * With what it accounts for; where nothing was reported not to work, how likely it is faulty.
   * @example "comes and goes: between Room 12 and Room 13 on trunk A, 61 %"
   */
  words!: string;
  place!: LocatedPlaceDto;
  /** That something of it is faulty, whether or not that explains anything. */
  probability!: number;
  /**
   * The chance that it is what keeps a reported function from a room: of its rooms and functions the largest.
   * @example 0.83
   */
  accounts!: number;
  /** It is open now and closed then; otherwise it stays as it is until it is mended. */
  intermittent!: boolean;
  components!: ComponentFaultDto[];
  /** The stations that would be silent if it has failed altogether. */
  silentIfSo!: RoomDto[];
}

/** Spans in a row that the evidence cannot tell apart, as one place to look at. */
export class StretchInWordsDto {
  /** @example "between Room 9 and Room 13 on trunk A, 4 spans, 83 %" */
  words!: string;
  /** @example 0.83 */
  probability!: number;
  /** Where to look within it: the likeliest span first. */
  spans!: StretchSpanDto[];
}

/** An observation that is not gone by. */
export class ObservationLeftOutDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** @example "Room 109 is bridged over or taken out, the record says" */
  reason!: string;
}

/** A reading that is not gone by. */
export class ReadingLeftOutDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** @example "is from before a mending" */
  reason!: string;
}

/** A look that is not gone by. */
export class LookLeftOutDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** @example "was looked at again by the same person" */
  reason!: string;
}

/** A bad joint in the supply pair that the volts read on a trunk speak of. */
export class JointInWordsDto extends JointCandidateDto {
  /** @example "a bad joint in the terminals at Room 9 IN on trunk A, about 3 ohm (1.4 to 6.2), 72 %" */
  words!: string;
}

/** Where a ticket's trouble lies. The locator advises; the person on site decides. */
export class LocationDto {
  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  /** The as-built record it was worked out on. */
  asBuiltVersion!: number;

  /** Days since the oldest part was put in: what nobody proved since is as old as that at most. */
  exposureDays!: number;

  /** @example "its oldest unit was installed" */
  exposureSince!: string;

  /** Functions at stations that a technician saw working since then: what they used counts from that day. */
  provenPoints!: number;

  /** In how many sittings the evidence was gathered. */
  sittings!: number;

  /**
   * The chance that something comes and goes; 0 where all evidence is of one sitting.
   * @example 0.61
   */
  intermittent!: number;

  /** So many named callers count as anybody in that chance: as somebody they would be too many. */
  intermittentCallersAsAnybody!: number;

  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  observationsUsed!: string[];

  observationsLeftOut!: ObservationLeftOutDto[];

  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  readingsUsed!: string[];

  readingsLeftOut!: ReadingLeftOutDto[];

  /** What somebody saw who looked at parts, answers of the office and findings among it. */
  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  looksUsed!: string[];

  looksLeftOut!: LookLeftOutDto[];

  /** What others did near the site's parts before: these are likelier to have failed for thirty days. */
  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  worksNearby!: string[];

  /**
   * What the office can do now, at most three, best first: each was chosen because it adds most to those before it for
   * each minute, and `informationBits` is what it adds. What an office told already is not asked again.
   */
  officeChecks!: CheckToMakeDto[];

  /** What a technician can do on the site, the most telling for each minute first, each by itself: two of a kind. */
  technicianChecks!: CheckToMakeDto[];

  /** Null where nothing was told that does not work. */
  @ApiProperty({ type: SurpriseDto, nullable: true })
  surprise!: SurpriseDto | null;

  /** What to do first, and why. */
  first!: FirstStepDto;

  /** What breaks what: for each trouble its causes, which add up to 100 %. */
  troubles!: GroupedTroubleDto[];

  /** Likely broken, and yet no cause of anything that was reported. */
  alsoBroken!: AlsoBrokenDto[];

  /** Who contradicts whom, and what hardly goes with all the rest. */
  contradictions!: ContradictionDto[];

  /** Ways in which the drawing may be wrong, likeliest first. */
  drawingDoubts!: DrawingDoubtDto[];

  /** The places that account for most, in words, what comes and goes among them. */
  places!: PlaceInWordsDto[];

  /** The likeliest stretches of more than one span, in words, as far as nothing comes and goes. */
  stretches!: StretchInWordsDto[];

  /** The likeliest bad joints, in words; `result` has the others. */
  resistiveJoints!: JointInWordsDto[];

  /** What stays as it is, as far as nothing comes and goes. */
  result!: LocateResultDto;
}
