import type { GroupMode, GroupSetting, HeadEndSetting, SiteSetting } from '../locator/index.js';

/** A mode of the head-end as answers name it: those of a group carry its name after a colon. */
export function namedGroup(name: string): { mode: string; group: string } {
  const colon = name.indexOf(':');
  return colon < 0
    ? { mode: name, group: '' }
    : { mode: name.slice(0, colon), group: name.slice(colon + 1) };
}

/** A sentence of each setting that the head-end has for a group of stations. */
export type GroupSentences = Readonly<Record<GroupMode, (group: string) => string>>;

export function isSiteSetting(setting: HeadEndSetting): setting is SiteSetting {
  return !setting.includes(':');
}

export function groupSetting(setting: GroupSetting, sentences: GroupSentences): string {
  const { mode, group } = namedGroup(setting);
  return sentences[mode as GroupMode](group);
}
