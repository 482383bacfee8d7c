import type { CheckAction, HeadEndSetting, LookedAt, SettingsTold } from '../locator/index.js';
import type { InformantKind } from '../plan/error-rates.js';
import type { Answer } from './ask-first.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';

/** The names by which looks at the head-end are answered; "yes" is always that it is as it should be. */
const SETTING_QUESTIONS: Readonly<Record<HeadEndSetting, string>> = {
  power: 'head-end-on',
  selector: 'rooms-selected',
  'bell-source': 'ordinary-day',
  microphone: 'microphone-on',
  'line-input': 'music-source-on',
};

const VOLUME = 'volume-up:';

/** The question by which a check is answered; null for what is reported as heard or silent. */
export function questionOf(action: CheckAction): string | null {
  if (action.kind === 'head-end') return questionOfSetting(action.setting);
  return action.kind === 'volume-knob' ? questionOfVolume(action.trunk, action.node) : null;
}

export function questionOfSetting(setting: HeadEndSetting): string {
  return SETTING_QUESTIONS[setting];
}

export function questionOfVolume(trunk: string, node: string): string {
  return `${VOLUME}${trunk}/${node}`;
}

type Subject = { setting: HeadEndSetting } | { trunk: string; node: string };

function subjectOf(question: string): Subject | undefined {
  for (const [setting, name] of Object.entries(SETTING_QUESTIONS))
    if (name === question) return { setting: setting as HeadEndSetting };
  const point = question.startsWith(VOLUME) ? question.slice(VOLUME.length) : '';
  const slash = point.indexOf('/');
  return slash < 0 ? undefined : { trunk: point.slice(0, slash), node: point.slice(slash + 1) };
}

/** Whether a question is about the head-end, or about the volume in a room that is on the drawing. */
export function isOfficeQuestion(question: string, drawing: DrawnRecord): boolean {
  const subject = subjectOf(question);
  if (subject === undefined || 'setting' in subject) return subject !== undefined;
  return findNode(drawing, subject.trunk, subject.node)?.kind === 'station';
}

/** An answer, a mending or another entry of a ticket's log. */
export interface LogEntry {
  kind: string;
  saidByKind: InformantKind | null;
  happenedAt: Date;
  details: { question?: string; answer?: string };
}

/**
 * What was answered in one period between mendings, after the ticket was last closed: of each question the last answer.
 * `entries` holds answers and mendings in the order in which they were recorded.
 */
export function settingsTold(
  entries: readonly LogEntry[],
  period: number,
  closedAt: Date | null,
): { told: SettingsTold; lookedAt: LookedAt } {
  const last = new Map<string, { answer: Answer; kind: InformantKind }>();
  let mendings = 0;
  for (const { kind, saidByKind, happenedAt, details } of entries) {
    if (kind === 'mending') mendings++;
    const isOld = mendings !== period || (closedAt !== null && happenedAt <= closedAt);
    if (kind !== 'answer' || isOld || details.question === undefined) continue;
    last.set(details.question, {
      answer: details.answer as Answer,
      kind: saidByKind ?? 'office',
    });
  }
  const settings: SettingsTold['settings'][number][] = [];
  const knobs: SettingsTold['knobs'][number][] = [];
  const lookedAt = { settings: [] as HeadEndSetting[], knobs: [] as LookedAt['knobs'][number][] };
  for (const [question, { answer, kind }] of last) {
    const subject = subjectOf(question);
    if (subject === undefined) continue;
    const isKnown = answer !== 'unknown';
    const how = { wrong: answer === 'no', kind };
    if ('setting' in subject) {
      lookedAt.settings.push(subject.setting);
      if (isKnown) settings.push({ ...subject, ...how });
    } else {
      lookedAt.knobs.push(subject);
      if (isKnown) knobs.push({ ...subject, ...how });
    }
  }
  return { told: { settings, knobs }, lookedAt };
}
