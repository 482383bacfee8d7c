/** Whole minutes since the midnight that the day begins with, at the site's or the firm's clocks alike. */
export interface MinuteRange {
  from: number;
  /** The last minute of it. */
  to: number;
}

/** Something to be done at a place on the day: a call-out or a promised visit. */
export interface DayJob {
  id: string;
  /** Row and column of the place in {@link DayProblem.travelMinutes}. */
  place: number;
  /** Expected length, at least 1. */
  minutes: number;
  /** How uncertain the length is: its variance, a whole number of minutes squared. Left out: it is certain. */
  variance?: number;
  /** It may begin within any of these; none: at any minute. In order, without overlap. */
  windows: readonly MinuteRange[];
  skills: readonly string[];
  /** Promised: somebody is there by then. */
  respondBy?: number;
  /** Promised: it works again by then. */
  restoreBy?: number;
  /** What each minute until it begins weighs, after {@link DayProblem.waitsFrom}, in minutes of travel. */
  waitPerMinute: number;
  /** What an expected minute beyond either promise weighs, in minutes of travel. */
  latePerMinute: number;
  /** What leaving it undone on this day weighs, in minutes of travel. */
  undoneCost: number;
  /** Somebody said that this technician does it. */
  pinnedTo?: string;
  /** Somebody said that these do not. */
  notBy: readonly string[];
  /** Who would do it by the plan that people know already. */
  plannedBefore?: string;
  /** What it weighs, by the id of who does it, that a part may be missing in their van: whole minutes of travel; left out: nothing. */
  secondTripCost?: Readonly<Record<string, number>>;
}

export interface DayTechnician {
  id: string;
  fromMinute: number;
  /** Back at `endPlace` by then. */
  toMinute: number;
  skills: readonly string[];
  startPlace: number;
  /** Left out: the day ends wherever the last job is. */
  endPlace?: number;
}

export interface DayProblem {
  jobs: readonly DayJob[];
  technicians: readonly DayTechnician[];
  /** Whole minutes from place to place; row: from. */
  travelMinutes: readonly (readonly number[])[];
  /** Since when what waits does. */
  waitsFrom: number;
  /** What it weighs to give a job to somebody else than the plan before did, in minutes of travel. */
  movedCost: number;
}

/** One technician's day: the jobs in order, by their index. */
export interface DayRoute {
  technician: number;
  jobs: readonly number[];
}

/** What a whole plan weighs, in minutes of travel: whole numbers, so that a proven optimum is one. */
export interface DayPlan {
  routes: readonly DayRoute[];
  undone: readonly number[];
  cost: number;
}
