/** How long work on site takes, in minutes. Where nobody has said and nothing was learned: common practice, no source. */
export const USUAL_WORK_TIMES = {
  walkHundredMetres: 2,
  climbFloor: 1.5,
  enterHeadEnd: 0.5,
  enterRoom: 1,
  reachJunctionBox: 3,
  waitForLesson: 2,
  setUpLadder: 2,
  isolateAndProveDead: 4,
  lookAtLamp: 0.5,
  listen: 1.5,
  measure: 3,
  disconnect: 6,
  lookAtFuse: 1.5,
  openHeadEnd: 6,
  openTerminals: 3,
  openCableRun: 5,
  followTenMetres: 2.5,
  openStation: 3,
  mendHeadEnd: 30,
  mendFuse: 5,
  mendTerminals: 10,
  mendCable: 30,
  mendStation: 10,
  walkTestRoom: 1,
  secondTrip: 120,
} as const;

export type WorkTimeName = keyof typeof USUAL_WORK_TIMES;
export type WorkTimes = Readonly<Record<WorkTimeName, number>>;
export const WORK_TIME_NAMES = Object.keys(USUAL_WORK_TIMES) as WorkTimeName[];

/** A second trip is decided in the office and on the road, and is no measure of how quickly somebody works on site. */
const NOT_LEARNED: readonly WorkTimeName[] = ['secondTrip'];

/** What a call-out took, and what was recorded on it. */
export interface WorkedVisit {
  minutes: number;
  findings: number;
  mendings: number;
}

/** So many minutes of visits weigh as much as what is usual. */
const MINUTES_OF_THE_USUAL = 1200;
/** A visit that was left running, or begun when it ended, says nothing. */
const LEAST_MINUTES = 5;
const MOST_MINUTES = 600;

/** What the firm's visits say about its pace. */
export interface LearnedPace {
  /** What is usual takes so many times as long. */
  factor: number;
  visits: number;
  minutes: number;
}

/**
 * How much longer or shorter than usual the firm's own visits take: minutes are Gamma around the expected ones times a
 * factor, itself Gamma with mean 1, so that a few visits move it little.
 */
export function learnedPace(visits: readonly WorkedVisit[]): LearnedPace {
  const told = visits.filter(
    ({ minutes, findings, mendings }) =>
      minutes >= LEAST_MINUTES && minutes <= MOST_MINUTES && findings + mendings > 0,
  );
  const minutes = told.reduce((sum, visit) => sum + visit.minutes, 0);
  const expected = told.reduce((sum, visit) => sum + usualMinutes(visit), 0);
  const factor = (MINUTES_OF_THE_USUAL + minutes) / (MINUTES_OF_THE_USUAL + expected);
  return { factor, visits: told.length, minutes };
}

/** Three rooms are looked into for each place that is opened: what is looked at in vain is not always recorded. */
const ROOMS_FOR_A_FINDING = 3;

/** What a visit takes on which so much was found and mended. */
export function usualMinutes(
  { findings, mendings }: Omit<WorkedVisit, 'minutes'>,
  t: WorkTimes = USUAL_WORK_TIMES,
): number {
  const room = t.enterRoom + t.waitForLesson + t.listen + t.walkHundredMetres;
  const opened = t.setUpLadder + t.isolateAndProveDead + t.openTerminals;
  return (
    t.enterHeadEnd + findings * (ROOMS_FOR_A_FINDING * room + opened) + mendings * t.mendTerminals
  );
}

/** What the firm says, else what is usual at the firm's pace. */
export function workTimesOf(
  own: Readonly<Partial<Record<WorkTimeName, number>>>,
  pace: Pick<LearnedPace, 'factor'>,
): WorkTimes {
  const times = WORK_TIME_NAMES.map((name): [WorkTimeName, number] => {
    const learned = NOT_LEARNED.includes(name)
      ? USUAL_WORK_TIMES[name]
      : USUAL_WORK_TIMES[name] * pace.factor;
    return [name, own[name] ?? learned];
  });
  return Object.fromEntries(times) as Record<WorkTimeName, number>;
}
