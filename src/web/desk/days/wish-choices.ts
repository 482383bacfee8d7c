import type { ReadJobWish, ReadWorkingTime } from '../../parts/wire.js';

/** One thing that may be wanted of a job. */
export interface WishChoice {
  key: string;
  kind: 'best' | 'pin' | 'ruleOut';
  personId: string;
  /** What is put in place of what was wanted; skills and length stay as they were. */
  fields: Pick<ReadJobWish, 'pinnedTo' | 'notBy' | 'minutes' | 'skills'>;
  isNow: boolean;
}

/** Nothing in particular; each of them does it; each of them does not, beside those who were ruled out before. */
export function wishChoices(
  wish: ReadJobWish,
  technicians: readonly Pick<ReadWorkingTime, 'personId'>[],
): WishChoice[] {
  const { minutes, skills, pinnedTo, notBy } = wish;
  const kept = { minutes, skills };
  const last = notBy.at(-1);
  return [
    {
      key: '',
      kind: 'best',
      personId: '',
      fields: { ...kept, pinnedTo: null, notBy: [] },
      isNow: pinnedTo === null && last === undefined,
    },
    ...technicians.map(({ personId }): WishChoice => ({
      key: `by ${personId}`,
      kind: 'pin',
      personId,
      fields: { ...kept, pinnedTo: personId, notBy: notBy.filter((id) => id !== personId) },
      isNow: pinnedTo === personId,
    })),
    ...technicians.map(({ personId }): WishChoice => ({
      key: `not by ${personId}`,
      kind: 'ruleOut',
      personId,
      fields: {
        ...kept,
        pinnedTo: pinnedTo === personId ? null : pinnedTo,
        notBy: [...notBy.filter((id) => id !== personId), personId],
      },
      isNow: pinnedTo === null && last === personId,
    })),
  ];
}
