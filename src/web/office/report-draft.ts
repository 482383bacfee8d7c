import { Failure } from '../parts/failure.js';
import type { PassReport, PassSite, ToldFunction } from '../parts/wire.js';
import { type Marks, type MarksOfTried, toReport } from './marks.js';
import type { Office } from './use-office.js';
import { OFFICE_WORDS } from './own-words.js';

export type SaidOddity = NonNullable<PassReport['oddities']>[number];

/** What was entered and not yet sent; of this site alone, whichever pass the tab opened before. */
export interface ReportDraft {
  site: string;
  tried?: ToldFunction;
  marks: MarksOfTried;
  /** Of rooms that were touched before it was said what was tried. */
  untold: Marks;
  oddities: readonly SaidOddity[];
  note: string;
  isUrgent: boolean;
  whyUrgent: string;
  callBack: string;
}

export const REPORT_DRAFT = 'report';

export function startDraft({ kept }: Office, { name }: PassSite): ReportDraft {
  const empty = {
    site: name,
    marks: {},
    untold: {},
    oddities: [],
    note: '',
    isUrgent: false,
    whyUrgent: '',
    callBack: '',
  };
  const draft = kept.read<Partial<ReportDraft>>(REPORT_DRAFT);
  return draft?.site === name ? { ...empty, ...draft } : empty;
}

/** The rooms of what is chosen. */
export function marksOf({ tried, marks, untold }: ReportDraft): Marks {
  return tried === undefined ? untold : (marks[tried] ?? {});
}

export function withMarks(draft: ReportDraft, marks: Marks): Partial<ReportDraft> {
  const { tried } = draft;
  if (tried === undefined) return { untold: marks };
  return { marks: { ...draft.marks, [tried]: marks } };
}

/** What was touched before is of what is chosen first. */
export function withTried(
  { marks, untold }: ReportDraft,
  tried: ToldFunction,
): Partial<ReportDraft> {
  if (Object.keys(untold).length === 0) return { tried };
  return { tried, untold: {}, marks: { ...marks, [tried]: { ...untold, ...marks[tried] } } };
}

/** As it is sent; without a drawing the note says all. */
export function reportOf(draft: ReportDraft, { rooms }: PassSite, name: string): PassReport {
  const { note, isUrgent, whyUrgent, callBack, oddities } = draft;
  return {
    name: name.trim(),
    ...toReport(rooms, draft.marks),
    note: note.trim() || null,
    urgentReason: isUrgent ? whyUrgent.trim() : null,
    callBackPhone: callBack.trim() || null,
    oddities: [...oddities],
  };
}

export function findMissing(
  draft: ReportDraft,
  { rooms }: PassSite,
  name: string,
): Failure | undefined {
  const { missing } = OFFICE_WORDS.report;
  const isDrawn = rooms.length > 0;
  const { observations } = toReport(rooms, draft.marks);
  const isMarked = observations.length + Object.keys(draft.untold).length > 0;
  const lacks = [
    { isSo: isDrawn && draft.tried === undefined, field: '/tried', reason: missing.tried },
    { isSo: isDrawn && !isMarked, field: '/observations', reason: missing.rooms },
    { isSo: !isDrawn && draft.note.trim() === '', field: '/note', reason: missing.inWords },
    {
      isSo: draft.isUrgent && draft.whyUrgent.trim() === '',
      field: '/urgentReason',
      reason: missing.whyUrgent,
    },
    { isSo: name.trim() === '', field: '/name', reason: missing.name },
  ].filter(({ isSo }) => isSo);
  return lacks.length === 0 ? undefined : new Failure(422, missing.something, lacks);
}
