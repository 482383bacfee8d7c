import type { Place } from '../drawing/drawn-node.js';
import type {
  CheckAction,
  GroupMode,
  HeadEndSetting,
  LookedAt,
  SiteSetting,
} from '../locator/index.js';
import type { NameNode, QuestionWords, Words } from '../words/index.js';
import type { Answer } from './ask-first.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';

/** The names by which looks at the head-end are answered; "yes" is always that it is as it should be. */
const SETTING_QUESTIONS: Readonly<Record<SiteSetting, string>> = {
  power: 'head-end-on',
  amplifier: 'sound-unit-on',
  selector: 'rooms-selected',
  'bell-source': 'ordinary-day',
  microphone: 'microphone-on',
  'line-input': 'music-source-on',
};

/** The same of a setting for one group of stations, whose name stands behind. */
const GROUP_QUESTIONS: Readonly<Record<GroupMode, string>> = {
  'group-off': 'group-on:',
  'group-bell-off': 'group-bell-on:',
  'group-announcement-off': 'group-announcement-on:',
};

const VOLUME = 'volume-up:';

/** The question by which a check is answered; null for what is reported as heard or silent. */
export function questionOf(action: CheckAction): string | null {
  if (action.kind === 'head-end') return questionOfSetting(action.setting);
  return action.kind === 'volume-knob' ? questionOfVolume(action.trunk, action.node) : null;
}

export function questionOfSetting(setting: HeadEndSetting): string {
  if (isOfSite(setting)) return SETTING_QUESTIONS[setting];
  const { part, group } = partOf(setting);
  return `${GROUP_QUESTIONS[part as GroupMode]}${group ?? ''}`;
}

export function questionOfVolume(trunk: string, node: string): string {
  return `${VOLUME}${trunk}/${node}`;
}

type Subject = { setting: HeadEndSetting } | { trunk: string; node: string };

function subjectOf(question: string): Subject | undefined {
  for (const [setting, name] of Object.entries(SETTING_QUESTIONS))
    if (name === question) return { setting: setting as SiteSetting };
  for (const [mode, name] of Object.entries(GROUP_QUESTIONS))
    if (question.startsWith(name))
      return { setting: `${mode as GroupMode}:${question.slice(name.length)}` };
  const point = question.startsWith(VOLUME) ? question.slice(VOLUME.length) : '';
  const slash = point.indexOf('/');
  return slash < 0 ? undefined : { trunk: point.slice(0, slash), node: point.slice(slash + 1) };
}

/** Whether a question is about the head-end, about a group that stations of the drawing are in, or about the volume in a room that is on the drawing. */
export function isOfficeQuestion(question: string, drawing: DrawnRecord): boolean {
  const subject = subjectOf(question);
  if (subject === undefined) return false;
  if ('setting' in subject) {
    const { group } = partOf(subject.setting);
    return group === null || hasGroup(drawing, group);
  }
  return findNode(drawing, subject.trunk, subject.node)?.kind === 'station';
}

/** A question in her words; null of one that is none of these. */
export function wordsOfQuestion(
  question: string,
  nameRoom: NameNode,
  words: Pick<Words, 'settingQuestion' | 'groupQuestion' | 'volumeQuestion'>,
): QuestionWords | null {
  const subject = subjectOf(question);
  if (subject === undefined) return null;
  if (!('setting' in subject)) return words.volumeQuestion(nameRoom(subject.trunk, subject.node));
  const { setting } = subject;
  return isOfSite(setting) ? words.settingQuestion[setting] : words.groupQuestion(setting);
}

/** What an answer says of the part that its question is about; null where nobody knew, or it is about none. */
export function lookAnswered(
  question: string,
  answer: Answer,
): { place: Place; part: string; group: string | null; seen: 'sound' | 'faulty' } | null {
  const subject = subjectOf(question);
  if (answer === 'unknown' || subject === undefined) return null;
  const seen = answer === 'yes' ? 'sound' : 'faulty';
  if ('setting' in subject)
    return { place: { kind: 'head-end' }, ...partOf(subject.setting), seen };
  return { place: { kind: 'station', ...subject }, part: 'volume-down', group: null, seen };
}

/** An answer, a mending or another entry of a ticket's log. */
export interface LogEntry {
  kind: string;
  happenedAt: Date;
  details: { question?: string; answer?: string };
}

/**
 * The questions that nobody could answer in one period between mendings, after the ticket was last closed. `entries` holds
 * answers and mendings in the order in which they were recorded.
 */
export function couldNotTell(
  entries: readonly LogEntry[],
  period: number,
  closedAt: Date | null,
): string[] {
  let mendings = 0;
  return entries.flatMap(({ kind, happenedAt, details }) => {
    if (kind === 'mending') mendings++;
    const isOld = mendings !== period || (closedAt !== null && happenedAt <= closedAt);
    const { question, answer } = details;
    if (kind !== 'answer' || isOld || answer !== 'unknown' || question === undefined) return [];
    return [question];
  });
}

/** What is not asked again: what was looked at, and what nobody could tell. */
export function askedAlready(
  looks: readonly { place: Place; part: string; group?: string | null }[],
  unknown: readonly string[],
): LookedAt {
  const asked = { settings: new Set<HeadEndSetting>(), knobs: [] as LookedAt['knobs'][number][] };
  for (const { place, part, group = null } of looks) {
    const setting = group === null ? part : `${part}:${group}`;
    if (place.kind === 'head-end' && isSetting(setting)) asked.settings.add(setting);
    if (place.kind === 'station' && part === 'volume-down')
      asked.knobs.push({ trunk: place.trunk, node: place.node });
  }
  for (const question of unknown) {
    const subject = subjectOf(question);
    if (subject === undefined) continue;
    if ('setting' in subject) asked.settings.add(subject.setting);
    else asked.knobs.push(subject);
  }
  return { settings: [...asked.settings], knobs: asked.knobs };
}

function isOfSite(setting: string): setting is SiteSetting {
  return Object.hasOwn(SETTING_QUESTIONS, setting);
}

function isSetting(setting: string): setting is HeadEndSetting {
  return isOfSite(setting) || Object.hasOwn(GROUP_QUESTIONS, setting.split(':', 1)[0] ?? '');
}

/** The part that a look at it names; the names of modes have no colon, those of groups may. */
function partOf(setting: HeadEndSetting): { part: string; group: string | null } {
  if (isOfSite(setting)) return { part: setting, group: null };
  const colon = setting.indexOf(':');
  return { part: setting.slice(0, colon), group: setting.slice(colon + 1) };
}

function hasGroup({ trunks }: DrawnRecord, group: string): boolean {
  return trunks.some(({ nodes }) => nodes.some(({ groups = [] }) => groups.includes(group)));
}
