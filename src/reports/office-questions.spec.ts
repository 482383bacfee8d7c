import { describe, expect, it } from '@jest/globals';
import type { Answer } from './ask-first.js';
import { isOfficeQuestion, type LogEntry, questionOf, settingsTold } from './office-questions.js';

const at = (minute: number) => new Date(Date.UTC(2026, 0, 1, 8, minute));
const answer = (question: string, given: Answer, minute = 0): LogEntry => ({
  kind: 'answer',
  saidByKind: 'office',
  happenedAt: at(minute),
  details: { question, answer: given },
});
const MENDING: LogEntry = {
  kind: 'mending',
  saidByKind: 'technician',
  happenedAt: at(5),
  details: {},
};
const DRAWING = {
  trunks: [
    {
      trunk: 'A',
      nodes: [
        { node: 'A1', kind: 'station' as const, fedFrom: null, cableMetres: 1, room: 'Room 1' },
        { node: 'T', kind: 'junction-box' as const, fedFrom: 'A1', cableMetres: 1, room: null },
      ],
    },
  ],
};

describe('questions of the office', () => {
  it('are those that name a setting of the head-end or a volume knob of the drawing', () => {
    expect(questionOf({ kind: 'head-end', setting: 'power' })).toBe('head-end-on');
    const knob = { kind: 'volume-knob', trunk: 'A', node: 'A1', function: 'bell' } as const;
    expect(questionOf(knob)).toBe('volume-up:A/A1');
    expect(questionOf({ ...knob, kind: 'function' })).toBeNull();
    const known = ['head-end-on', 'rooms-selected', 'volume-up:A/A1'];
    for (const question of known) expect(isOfficeQuestion(question, DRAWING)).toBe(true);
    const unknown = ['is-it-raining', 'volume-up:A/T', 'volume-up:A/A9', 'volume-up:A', ''];
    for (const question of unknown) expect(isOfficeQuestion(question, DRAWING)).toBe(false);
  });

  it('say of a setting what was answered last, and that it was looked at even where nobody knew', () => {
    const { told, lookedAt } = settingsTold(
      [
        answer('head-end-on', 'no'),
        answer('head-end-on', 'yes', 1),
        answer('ordinary-day', 'unknown', 2),
        answer('volume-up:A/A1', 'no', 3),
      ],
      0,
      null,
    );
    expect(told).toEqual({
      settings: [{ setting: 'power', wrong: false, kind: 'office' }],
      knobs: [{ trunk: 'A', node: 'A1', wrong: true, kind: 'office' }],
    });
    expect(lookedAt.settings).toEqual(['power', 'bell-source']);
    expect(lookedAt.knobs).toEqual([{ trunk: 'A', node: 'A1' }]);
  });

  it('count for the period between mendings in which they were answered, and after a closing', () => {
    const entries = [
      answer('head-end-on', 'yes', 1),
      MENDING,
      answer('microphone-on', 'no', 6),
      answer('rooms-selected', 'yes', 8),
    ];
    const settings = (period: number, closedAt: Date | null) =>
      settingsTold(entries, period, closedAt).lookedAt.settings;
    expect(settings(0, null)).toEqual(['power']);
    expect(settings(1, null)).toEqual(['microphone', 'selector']);
    expect(settings(1, at(7))).toEqual(['selector']);
  });
});
