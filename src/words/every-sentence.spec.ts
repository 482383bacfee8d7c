import { describe, expect, it } from '@jest/globals';
import type { Place } from '../drawing/drawn-node.js';
import type { CheckAction, ComponentName, GroupSetting } from '../locator/index.js';
import { FUNCTIONS } from '../plan/functions.js';
import { GROUP_MODES, HEAD_END_MODES, STATION_MODES } from '../plan/modes.js';
import {
  FUNCTIONS_AS_ASKED,
  LANGUAGES,
  officeWordsIn,
  pageWordsIn,
  type OneSaid,
  type ToldCause,
  wordsIn,
} from './index.js';

const LONG = `7–${'ΩΨ'.repeat(60)}`;
const ROOMS = ['7', LONG];
const name = (_trunk: string, node: string) => (node === 'long' ? LONG : node);
const COUNTS = [0, 1, 2, 5, 21, 1_000_000];

const PLACES: Place[] = [
  { kind: 'span', trunk: '8', from: '3', to: '4' },
  { kind: 'span', trunk: '8', from: null, to: 'long' },
  { kind: 'station', trunk: '8', node: 'long' },
  { kind: 'port', trunk: '8' },
  { kind: 'head-end' },
];

const COMPONENTS = PLACES.flatMap((place) => {
  const parts: Record<Place['kind'], ComponentName[]> = {
    span: ['junction-out', 'cable', 'junction-in'],
    station: ['station'],
    port: ['port'],
    'head-end': ['head-end'],
  };
  return parts[place.kind].map((part) => [part, place, name]);
});

const GROUP_SETTINGS = GROUP_MODES.map((mode): GroupSetting => `${mode}:${LONG}`);

const CHECKS: CheckAction[] = [
  ...FUNCTIONS.flatMap((one): CheckAction[] => [
    { kind: 'function', trunk: '8', node: 'long', function: one },
    { kind: 'volume-knob', trunk: '8', node: '7', function: one },
    { kind: 'isolation', trunk: '8', node: '7', function: one },
  ]),
  ...(['power', 'amplifier', 'selector', 'bell-source', 'microphone', 'line-input'] as const).map(
    (setting): CheckAction => ({ kind: 'head-end', setting }),
  ),
  ...GROUP_SETTINGS.map((setting): CheckAction => ({ kind: 'head-end', setting })),
  { kind: 'supply-volts', trunk: '8', node: '7' },
  { kind: 'continuity', trunk: '8', from: null, to: '7' },
  { kind: 'continuity', trunk: '8', from: '3', to: 'long' },
  { kind: 'open-junction', trunk: '8', from: null, to: '7', component: 'junction-out' },
  { kind: 'open-junction', trunk: '8', from: '3', to: '7', component: 'junction-in' },
];

const CAUSES: ToldCause[] = [
  ...PLACES.flatMap((place): ToldCause[] =>
    place.kind === 'span' || place.kind === 'port'
      ? [
          { kind: place.kind, place },
          { kind: 'comes-and-goes', place },
        ]
      : [],
  ),
  ...HEAD_END_MODES.map((mode): ToldCause => {
    const isOfGroup = GROUP_MODES.some((one) => one === mode);
    return { kind: 'head-end', mode: isOfGroup ? `${mode}:${LONG}` : mode };
  }),
  { kind: 'short', trunk: '8' },
  { kind: 'weak-feed', trunk: '8' },
  { kind: 'own-unit', node: null, mode: null },
  ...[null, ...STATION_MODES].map((mode): ToldCause => ({ kind: 'own-unit', node: '7', mode })),
  { kind: 'nothing' },
  { kind: 'rest' },
];

const SAID: OneSaid[] = [
  { saidBy: '11', outcome: 'works' },
  { saidBy: '12', outcome: 'weak' },
  { saidBy: LONG, outcome: 'fails' },
];

const OHMS = { median: 3.04, low: 1.42, high: 12.7 };
const rooms = ROOMS.map((room) => [room]);
const counts = COUNTS.map((count) => [count]);
const trunks = [['8']];
const days = [['2026-03-09'], ['2028-02-29']];
const TRIED = { tried: '1', fails: '2', works: '3', weak: '4' };

/** What each function is tried with, by its path; a path that ends in * stands for all below. */
const TRIED_WITH: Record<string, unknown[][]> = {
  'formats.*': [],
  'unnamed.*': [['9']],
  place: PLACES.map((place) => [place, name]),
  component: COMPONENTS,
  stretch: [1, 2, 17].map((count) => [
    { trunk: '8', from: '3', to: 'long', spans: Array.from({ length: count }) },
    name,
  ]),
  withChance: [0, 0.001, 0.5, 1].map((chance) => ['7', chance]),
  comesAndGoes: rooms,
  joint: COMPONENTS.filter(([, place]) => (place as Place).kind === 'span').map(([part, place]) => [
    { component: part, place, ohms: OHMS, probability: 0.72 },
    name,
  ]),
  check: CHECKS.map((action) => [action, name]),
  volumeQuestion: rooms,
  setAside: ROOMS.flatMap((room) =>
    FUNCTIONS.flatMap((one) => [true, false].map((isOut) => [room, { function: one, isOut }])),
  ),
  'answer.range': [['7', LONG]],
  'answer.missedIn': [
    [['1'], ['7']],
    [
      ['1', '2'],
      ['7', '8', LONG],
    ],
  ],
  'answer.cause': CAUSES.map((cause) => [cause, name]),
  'answer.trouble': [
    [['1'], [{ words: '2', percent: 100 }]],
    [
      ['1', '2'],
      [
        { words: '3', percent: 91 },
        { words: LONG, percent: 9 },
      ],
    ],
  ],
  'answer.alsoBroken': rooms.map(([room]) => [room, 0.3]),
  'answer.contradiction': FUNCTIONS.map((one) => [LONG, one, SAID]),
  'answer.againstTheRest': SAID.map((said) => ['7', 'bell', said]),
  'answer.saidBoth': FUNCTIONS.map((one) => [LONG, one]),
  'answer.drawing.branch': [[['7', LONG], '3', 0.66]],
  'answer.drawing.end': [[['7', LONG], '8', 0.66]],
  'answer.drawing.swapped': [[['7', LONG], 0.66]],
  'answer.drawing.countCables': [[LONG, 2, 3]],
  'answer.drawing.compareNames': [[['7', LONG]]],
  'answer.leftOut': [
    ...(
      [
        'withdrawn',
        'before-closing',
        'before-mending',
        'after-mending',
        'said-again',
        'looked-again',
        'read-again',
        'no-such-place',
        'unit-out',
        'no-such-group',
      ] as const
    ).map((kind) => [{ kind }]),
    [{ kind: 'no-such-node', node: '7' }],
    [{ kind: 'no-such-disconnection', node: '7' }],
    ...FUNCTIONS.map((one) => [{ kind: 'never-fitted', room: LONG, function: one }]),
    [{ kind: 'room-out', room: LONG }],
    [{ kind: 'other-disconnections', trunk: '8', most: 9 }],
    [{ kind: 'older', most: 9 }],
    [{ kind: 'not-on-record', missing: ['7', '12'] }],
    [{ kind: 'refused', reason: '7' }],
  ],
  'answer.halve': rooms.map(([room]) => [room, '8']),
  'answer.first.byOffice': COUNTS.map((minutes) => ['9', minutes]),
  'answer.first.atDrawing': [['9']],
  'answer.first.drawnWrong': [[['9']], [['7', '12']]],
  'answer.first.leftOut': [['9']],
  'answer.first.goTo': [['9', 0.83]],
  'answer.first.onSite': [['9']],
  groupQuestion: GROUP_SETTINGS.map((setting) => [setting]),
  'walk.tryFunction.*': rooms,
  'walk.measureOutput': trunks,
  'walk.measureArrival': rooms,
  'walk.disconnect': rooms,
  'walk.liftOff': rooms,
  'walk.open': COMPONENTS,
  'walk.remake': COMPONENTS,
  'walk.soundAnd': [['7']],
  'walk.from': COUNTS.map((minutes) => [LONG, minutes]),
  'walk.step': [['7', 12]],
  'walk.ending': [['7', '12', '9']],
  'walk.otherwise': [['12', '9']],
  'drawing.title': trunks,
  'drawing.metres': [[9.5]],
  said: FUNCTIONS.flatMap((one) =>
    ['works', 'weak', 'fails'].map((outcome) => [
      { room: LONG, function: one, outcome, saidBy: '12' },
    ]),
  ),
  'pen.box': [[true], [false]],
  unit: [['9']],
  line: trunks,
  floor: [['1'], ['-2']],
  instant: [['2026-03-09T23:30:00.000Z', 'Europe/Berlin']],
  title: rooms,
  ring: rooms,
  maybeOld: rooms,
  'report.touch': [[TRIED]],
  'report.count': COUNTS.flatMap((count) =>
    [0, 7].map((weak) => [{ fails: count, works: 1, weak }, TRIED]),
  ),
  'report.all': [['2']],
  'report.thanks': [[[7]], [[7, 8]], [[7, 8, 9]]],
  nextVisit: [
    [null],
    [{ on: '2026-03-09', fromTime: null, kind: 'planned' }],
    [{ on: '2026-03-09', fromTime: '07:30', kind: 'call-out' }],
  ],
  'ticket.heading': counts,
  'ticket.since': [['9']],
  'ticket.ofTicket': counts,
  'ticket.openCount': counts,
  'ticket.notWorking': [
    ['1', ['7']],
    ['1', ['7', LONG]],
  ],
  'ticket.saidToWork': [
    ['1', ['7']],
    ['1', ['7', LONG]],
  ],
  'check.suggestion': COUNTS.map((minutes) => ['1', minutes]),
  'sign.count': counts,
  'sign.visit': days,
  'sign.signed': [['2026-03-09', LONG]],
};

function argumentsFor(path: string): unknown[][] {
  const known = TRIED_WITH[path] ?? TRIED_WITH[path.replace(/\.[^.]+$/, '.*')];
  if (known === undefined) throw new Error(`Say what ${path} is tried with`);
  return known;
}

/** Every sentence of a language, by where it stands and what it is made of. */
function sentences(words: object, path = ''): [string, string][] {
  return Object.entries(words).flatMap(([key, value]: [string, unknown]): [string, string][] => {
    const at = path === '' ? key : `${path}.${key}`;
    if (typeof value === 'string') return [[at, value]];
    if (typeof value === 'object' && value !== null) return sentences(value, at);
    if (typeof value !== 'function') throw new Error(`${at} is no sentence`);
    return argumentsFor(at).flatMap((given, n): [string, string][] => {
      const said = (value as (...all: unknown[]) => unknown)(...given);
      return typeof said === 'string'
        ? [[`${at} ${n}`, said]]
        : sentences(said as object, `${at} ${n}`);
    });
  });
}

const all = (language: (typeof LANGUAGES)[number]) =>
  new Map([
    ...sentences(wordsIn(language)).map(([at, said]) => [`words ${at}`, said] as const),
    ...sentences(pageWordsIn(language)).map(([at, said]) => [`page ${at}`, said] as const),
    ...sentences(officeWordsIn(language)).map(([at, said]) => [`office ${at}`, said] as const),
  ]);

/** The same in two languages, and rightly so. */
const ALIKE = /language$|drawing\.metres|walk\.step|answers\.no$/;
const ALIKE_WORDS = ['cable'];
const ENGLISH = all('en');
const ENGLISH_WORDS =
  /(?<![\p{L}])(the|is|are|of|and|with|not|you|your|please|look|from|whether|between|trunk|room|head-end)(?![\p{L}])/iu;

describe.each(LANGUAGES)('every sentence in %s', (language) => {
  const said = all(language);

  it('is there, and made of what it is about', () => {
    expect([...said.keys()]).toEqual([...ENGLISH.keys()]);
    expect(said.size).toBeGreaterThan(250);
    for (const [at, sentence] of said) {
      const judged = `${at}: ${sentence}`;
      expect(judged).not.toMatch(/undefined|null|NaN|\[object|#| {2}/);
      expect(sentence.trim()).toBe(sentence);
      expect(sentence).not.toBe('');
      // A long name is never cut.
      if (sentence.includes('Ω')) expect(judged).toContain(LONG);
    }
  });

  it('names the same rooms, trunks and numbers as in English', () => {
    // Thousands are parted by spaces, points or commas, also by the Indian rule; halves by a point or a comma.
    const figures = (sentence: string) => {
      const plain = sentence
        .replace(/(?<=\d)[\s.,](?=\d{2,3}(?!\d))/g, '')
        .replace(/(?<=\d),(?=\d)/g, '.');
      return [...new Set([...plain.matchAll(/[\d.]*\d/g)].map(([digits]) => digits))].sort();
    };
    for (const [at, sentence] of said) {
      // Days are written in words and figures; “one minute” too.
      if (/instant|nextVisit|sign\.visit|sign\.signed|suggestion|byOffice/.test(at)) continue;
      expect([at, figures(sentence)]).toEqual([at, figures(ENGLISH.get(at) ?? '')]);
    }
  });

  if (language === 'en') return;

  it('is not left in English', () => {
    for (const [at, sentence] of said) {
      if (ALIKE.test(at) || ALIKE_WORDS.includes(sentence)) continue;
      const isOfFiguresAlone = !/\p{L}/u.test(sentence.replaceAll(LONG, ''));
      if (!isOfFiguresAlone) expect([at, sentence]).not.toEqual([at, ENGLISH.get(at)]);
      expect(`${at}: ${sentence}`.slice(at.length)).not.toMatch(ENGLISH_WORDS);
      if (language === 'hi' && !isOfFiguresAlone)
        expect(`${at}: ${sentence}`.slice(at.length)).toMatch(/\p{Script=Devanagari}/u);
      if (language === 'hi') expect(sentence.replaceAll(LONG, '')).not.toMatch(/[A-Za-z]{3,}/);
    }
  });
});

describe('what the office reads', () => {
  it('has no word of the trade in any language', () => {
    const trade = /head-end|centrale?\b|मुख्य यूनिट|trunk|junction|station\b|amplif/i;
    for (const language of LANGUAGES) {
      const words = wordsIn(language);
      const asked = [
        ...[
          ...Object.values(words.settingQuestion),
          ...GROUP_SETTINGS.map((setting) => words.groupQuestion(setting)),
        ].flatMap(({ text, advice }) => [text, advice]),
        ...CHECKS.filter(({ kind }) => ['function', 'volume-knob', 'head-end'].includes(kind)).map(
          (action) => words.check(action, name),
        ),
        ...sentences(officeWordsIn(language)).map(([, sentence]) => sentence),
      ];
      for (const sentence of asked) expect(sentence).not.toMatch(trade);
    }
  });

  it('asks for every function, each once', () => {
    expect([...FUNCTIONS_AS_ASKED].sort()).toEqual([...FUNCTIONS].sort());
  });
});
