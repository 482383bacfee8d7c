/** A visit that was promised, to be put on a day. Days are counted from the first of the quarter, 0. */
export interface PromisedVisit {
  id: string;
  /** Visits of one area on one day by one technician share the way there. */
  area: number;
  minutes: number;
  idealDay: number;
  /** The days on which it may be, in order. */
  days: readonly number[];
  skills: readonly string[];
  /** What a day before or after the ideal one weighs, in minutes. */
  dayCost: number;
  /** What leaving it out weighs, in minutes. */
  undoneCost: number;
  pinnedTo?: string;
  notBy: readonly string[];
}

export interface QuarterTechnician {
  id: string;
  skills: readonly string[];
  /** Minutes of work, by day; 0: not there. */
  minutesOfDay: readonly number[];
}

export interface QuarterProblem {
  visits: readonly PromisedVisit[];
  technicians: readonly QuarterTechnician[];
  /** Minutes there and back, by area. */
  areaMinutes: readonly number[];
}

/** A visit on a day, by their indices. */
export interface PlacedVisit {
  visit: number;
  technician: number;
  day: number;
}

export interface QuarterPlan {
  placed: readonly PlacedVisit[];
  undone: readonly number[];
  /** Ways, days away from the ideal ones and what is left out, in minutes. */
  cost: number;
}
