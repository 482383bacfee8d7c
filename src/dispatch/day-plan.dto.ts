import { ApiProperty } from '@nestjs/swagger';

const KINDS = ['visit', 'ticket'] as const;
const SOURCES = ['said', 'agreed', 'walk', 'usual'] as const;
const OBSTACLES = [
  'pinned-to-another',
  'ruled-out',
  'skills',
  'day-or-window',
  'no-room',
  'price',
] as const;

/** Something to be done: a visit of the day, or an open ticket that nobody visits yet. */
export class DayJobDto {
  @ApiProperty({ format: 'uuid' })
  jobId!: string;

  @ApiProperty({ enum: KINDS })
  kind!: (typeof KINDS)[number];

  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  siteName!: string;

  @ApiProperty({ type: [Number] })
  ticketNumbers!: number[];

  minutes!: number;

  /** By how much the length may be otherwise, as one deviation; 0 where somebody said it. */
  spreadMinutes!: number;

  /** Whether somebody said the length, hours were agreed, the walk was reckoned, or it is the firm's usual one. */
  @ApiProperty({ enum: SOURCES })
  minutesFrom!: (typeof SOURCES)[number];

  /** Nobody has entered where the site lies: the way there is a guess. */
  placeIsUnknown!: boolean;
}

/** Who else could do it, and at what price. */
export class InsteadDto {
  @ApiProperty({ format: 'uuid' })
  technicianId!: string;

  /** In minutes of travel, with the rest of the plan as it is. */
  extraMinutes!: number;

  /** That a part is needed which their van does not have; left out where that was not reckoned. */
  secondTripChance?: number;
}

/** A part that is worth taking along to a job. */
export class PartOfJobDto {
  /** @example "connectors" */
  name!: string;

  /** If something is at fault. */
  neededChance!: number;

  /** Null: nobody said what the van carries. */
  @ApiProperty({ type: Boolean, nullable: true })
  isInVan!: boolean | null;
}

/** A job in somebody's day; times by the wall clock. */
export class PlannedJobDto extends DayJobDto {
  travelMinutes!: number;

  /** @example "09:12" */
  arrives!: string;

  /** As long as all before takes what is expected; so the other times. */
  begins!: string;
  ends!: string;

  /** It has begun by then with nine chances in ten. */
  beginsNineInTen!: string;

  /** It is done by then with nine chances in ten. */
  endsNineInTen!: string;

  /** Minutes beyond what was promised, of coming and of its working again together. */
  lateMinutes!: number;

  /** The same as it is weighed: expected, lengths being uncertain. */
  expectedLateMinutes!: number;

  /** That what was promised is kept; null: nothing is promised. */
  @ApiProperty({ type: Number, nullable: true })
  keptChance!: number | null;

  /** Until the first promise would be broken; null: nothing is promised. */
  @ApiProperty({ type: Number, nullable: true })
  spareMinutes!: number | null;

  /** Null: nobody else can. */
  @ApiProperty({ type: InsteadDto, nullable: true })
  instead!: InsteadDto | null;

  /** Most needed first; left out where no walk was reckoned, and in plans made before vans were known. */
  @ApiProperty({ type: [PartOfJobDto], required: false })
  parts?: PartOfJobDto[];

  /** That a part is needed which the van does not have; left out where that was not reckoned. */
  secondTripChance?: number;
}

export class DayRouteDto {
  @ApiProperty({ format: 'uuid' })
  technicianId!: string;

  /** In order. */
  @ApiProperty({ type: [PlannedJobDto] })
  jobs!: PlannedJobDto[];
}

/** What stands against somebody's doing a job. */
export class ObstacleDto {
  @ApiProperty({ format: 'uuid' })
  technicianId!: string;

  @ApiProperty({ enum: OBSTACLES })
  kind!: (typeof OBSTACLES)[number];

  /** Skills that are wanted and lacking. */
  @ApiProperty({ type: [String] })
  lacking!: string[];

  /** What it would add, in minutes of travel, where there is room but leaving it weighs less. */
  @ApiProperty({ type: Number, nullable: true })
  extraMinutes!: number | null;
}

/** A job that the plan leaves, and why. */
export class UndoneJobDto extends DayJobDto {
  @ApiProperty({ type: [ObstacleDto] })
  obstacles!: ObstacleDto[];
}

/** Who does what on a day, in which order. */
export class PlannedDayDto {
  @ApiProperty({ type: [DayRouteDto] })
  routes!: DayRouteDto[];

  @ApiProperty({ type: [UndoneJobDto] })
  undone!: UndoneJobDto[];

  /** Minutes of travel, of being late and of leaving undone, as the plan weighs them. */
  cost!: number;

  /** No plan can weigh less. */
  bound!: number;

  /** No plan weighs less than this one: `cost` is `bound`. */
  isProven!: boolean;

  roadMinutes!: number;

  /** Technicians who are off on the day, or whose working time nobody has entered. */
  @ApiProperty({ type: [String], format: 'uuid' })
  notThere!: string[];

  /** There was more to do than a plan takes; the newest tickets were left out. */
  isCutOff!: boolean;
}

export class DayPlanDto extends PlannedDayDto {
  @ApiProperty({ format: 'date' })
  day!: string;

  madeAt!: Date;

  @ApiProperty({ type: Date, nullable: true })
  acceptedAt!: Date | null;

  /** Goes up with each plan of the day; the ETag. */
  version!: number;
}
