import type { ReadWorkTimes } from '../../parts/wire.js';

export type TimedWork = ReadWorkTimes['items'][number]['name'];

/** Minutes as they are typed; empty: nobody says. */
export type WorkTimesDraft = Record<TimedWork, string>;

export const WORK_TIME_GROUPS = {
  way: [
    'walkHundredMetres',
    'climbFloor',
    'enterHeadEnd',
    'enterRoom',
    'reachJunctionBox',
    'waitForLesson',
    'setUpLadder',
  ],
  look: ['isolateAndProveDead', 'lookAtLamp', 'listen', 'measure', 'disconnect', 'lookAtFuse'],
  open: ['openHeadEnd', 'openTerminals', 'openCableRun', 'followTenMetres', 'openStation'],
  mend: [
    'mendHeadEnd',
    'mendFuse',
    'mendTerminals',
    'mendCable',
    'mendStation',
    'walkTestRoom',
    'secondTrip',
  ],
} as const satisfies Record<string, readonly TimedWork[]>;

export function workTimesDraft({ items }: ReadWorkTimes): WorkTimesDraft {
  const typed = items.map(({ name, minutes, from }) => [name, from === 'own' ? `${minutes}` : '']);
  return Object.fromEntries(typed) as WorkTimesDraft;
}

/** What is otherwise than it was read, as a merge patch; NaN where no number was typed. A comma is a point. */
export function workTimesPatch(
  base: WorkTimesDraft,
  draft: WorkTimesDraft,
): Partial<Record<TimedWork, number | null>> {
  const names = Object.keys(draft) as TimedWork[];
  return Object.fromEntries(
    names
      .filter((name) => draft[name].trim() !== base[name])
      .map((name) => [name, minutesOf(draft[name].trim().replace(',', '.'))]),
  );
}

function minutesOf(text: string): number | null {
  if (text === '') return null;
  return /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
}
