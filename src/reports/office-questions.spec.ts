import { describe, expect, it } from '@jest/globals';
import type { Answer } from './ask-first.js';
import {
  askedAlready,
  couldNotTell,
  isOfficeQuestion,
  type LogEntry,
  lookAnswered,
  questionOf,
} from './office-questions.js';

const at = (minute: number) => new Date(Date.UTC(2026, 0, 1, 8, minute));
const answer = (question: string, given: Answer, minute = 0): LogEntry => ({
  kind: 'answer',
  happenedAt: at(minute),
  details: { question, answer: given },
});
const MENDING: LogEntry = {
  kind: 'mending',
  happenedAt: at(5),
  details: {},
};
const DRAWING = {
  trunks: [
    {
      trunk: 'A',
      nodes: [
        {
          node: 'A1',
          kind: 'station' as const,
          fedFrom: null,
          cableMetres: 1,
          room: 'Room 1',
          groups: ['upper: east'],
        },
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
    const group = { kind: 'head-end', setting: 'group-off:upper: east' } as const;
    expect(questionOf(group)).toBe('group-on:upper: east');
    const known = ['head-end-on', 'sound-unit-on', 'group-bell-on:upper: east', 'volume-up:A/A1'];
    for (const question of known) expect(isOfficeQuestion(question, DRAWING)).toBe(true);
    const unknown = [
      'is-it-raining',
      'group-on:upper',
      'group-on:',
      'volume-up:A/T',
      'volume-up:A/A9',
      'volume-up:A',
      '',
    ];
    for (const question of unknown) expect(isOfficeQuestion(question, DRAWING)).toBe(false);
  });

  it('are answered by a look at what they are about, or by nothing where nobody knew', () => {
    const power = { place: { kind: 'head-end' }, part: 'power', group: null };
    expect(lookAnswered('group-announcement-on:upper: east', 'no')).toEqual({
      place: { kind: 'head-end' },
      part: 'group-announcement-off',
      group: 'upper: east',
      seen: 'faulty',
    });
    expect(lookAnswered('head-end-on', 'yes')).toEqual({ ...power, seen: 'sound' });
    expect(lookAnswered('head-end-on', 'no')).toEqual({ ...power, seen: 'faulty' });
    expect(lookAnswered('head-end-on', 'unknown')).toBeNull();
    expect(lookAnswered('is-it-raining', 'yes')).toBeNull();
    expect(lookAnswered('volume-up:A/A1', 'no')).toEqual({
      place: { kind: 'station', trunk: 'A', node: 'A1' },
      part: 'volume-down',
      group: null,
      seen: 'faulty',
    });
  });

  it('are not asked again where somebody looked, or could not tell', () => {
    const station = { kind: 'station', trunk: 'A', node: 'A1' } as const;
    const looks = [
      { place: { kind: 'head-end' }, part: 'power' },
      { place: { kind: 'head-end' }, part: 'receiver' },
      { place: { kind: 'head-end' }, part: 'group-off', group: 'upper: east' },
      { place: station, part: 'unit' },
      { place: station, part: 'volume-down' },
    ] as const;
    const knob = { trunk: 'A', node: 'A1' };
    const settings = ['power', 'group-off:upper: east'];
    expect(askedAlready(looks, [])).toEqual({ settings, knobs: [knob] });
    const unknown = ['ordinary-day', 'head-end-on', 'volume-up:A/A2', 'is-it-raining'];
    expect(askedAlready(looks, unknown)).toEqual({
      settings: [...settings, 'bell-source'],
      knobs: [knob, { trunk: 'A', node: 'A2' }],
    });
  });

  it('that nobody could answer count for their period between mendings, and after a closing', () => {
    const entries = [
      answer('head-end-on', 'unknown', 1),
      MENDING,
      answer('microphone-on', 'unknown', 6),
      answer('ordinary-day', 'yes', 7),
      answer('rooms-selected', 'unknown', 8),
    ];
    expect(couldNotTell(entries, 0, null)).toEqual(['head-end-on']);
    expect(couldNotTell(entries, 1, null)).toEqual(['microphone-on', 'rooms-selected']);
    expect(couldNotTell(entries, 1, at(7))).toEqual(['rooms-selected']);
  });
});
