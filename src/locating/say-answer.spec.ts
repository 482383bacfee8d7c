import { describe, expect, it } from '@jest/globals';
import { locate, type LocateRequest, type RequestObservation } from '../locator/index.js';
import type { FunctionName } from '../plan/functions.js';
import type { Outcome } from '../plan/error-rates.js';
import type { Heard } from '../reports/observation.js';
import type { AsBuilt } from '../sites/as-built.js';
import { trunksOf } from '../sites/drawing.js';
import { wordsIn } from '../words/index.js';
import { contradictions } from './contradictions.js';
import { groupTroubles } from './group-troubles.js';
import { suspects } from './place-chances.js';
import { sayAlsoBroken, sayContradiction, sayDrawingDoubt, sayFirst } from './say-answer.js';
import { leadingPlace, sayTrouble } from './say-troubles.js';

// The situations of the table at the top of issue 10: twenty rooms in a row.
const EN = wordsIn('en');

const drawn = (more: (room: number) => object = () => ({})) =>
  ({
    trunks: [
      {
        trunk: 'A',
        nodes: Array.from({ length: 20 }, (_, n) => ({
          node: `A${n + 1}`,
          kind: 'station',
          fedFrom: n === 0 ? null : `A${n}`,
          cableMetres: 9,
          room: `Room ${101 + n}`,
          ...more(n + 1),
        })),
      },
    ],
  }) as unknown as AsBuilt;

const OUTCOMES: Record<string, Outcome> = { o: 'works', w: 'weak', x: 'fails' };

/** A letter a room: heard, weak, silent, or - for not said. */
const heard = (
  rooms: string,
  name: FunctionName = 'announcement',
  kind: 'office' | 'technician' = 'office',
): RequestObservation[] =>
  [...rooms].flatMap((letter, n) => {
    const outcome = OUTCOMES[letter];
    if (outcome === undefined) return [];
    const informant = { id: `${kind} 1`, kind };
    return { trunk: 'A', node: `A${n + 1}`, function: name, outcome, informant };
  });

function answer(
  observations: RequestObservation[],
  { drawing = drawn(), ...more }: Partial<LocateRequest> & { drawing?: AsBuilt } = {},
) {
  const result = locate({ trunks: trunksOf(drawing), exposureDays: 180, observations, ...more });
  const grouped = groupTroubles(result.troubles, null);
  const doubts = result.drawing.alternatives.map((one) => sayDrawingDoubt(one, drawing, EN, []));
  const checks = { officeChecks: [], technicianChecks: [], leftOut: [] };
  return {
    result,
    grouped,
    troubles: grouped.map((one) => sayTrouble(one, drawing, EN)),
    doubts,
    alsoBroken: sayAlsoBroken(suspects(result, null), drawing, EN),
    first: (checked: object = {}) =>
      sayFirst(
        { leading: leadingPlace(grouped), drawing: doubts, ...checks, ...checked },
        drawing,
        EN,
      ),
  };
}

const OFFICE_CHECK = { words: 'look whether it is on', minutes: 0.4 } as never;

describe('the answer in words', () => {
  it('names the one silent room, and nothing unrelated', () => {
    const { troubles, first } = answer(heard('-------oxo----------'));
    expect(troubles.map(({ words }) => words)).toEqual([
      expect.stringMatching(
        /^announcements in Room 109: the room’s own unit or its settings, 9\d %; nothing wrong, \d %; /,
      ),
    ]);
    expect(troubles[0]!.words).not.toMatch(/head-end|Room 120/);
    expect(troubles[0]!.causes[0]!.place).toEqual({ kind: 'station', trunk: 'A', node: 'A9' });
    expect(troubles[0]!.causes[0]!.details[0]).toMatchObject({
      mode: 'volume-down',
      words: 'the volume turned down there',
    });
    expect(first().words).toMatch(
      /^First: go and look at the station in Room 109 on trunk A\. With 9\d %/,
    );
  });

  it('says that the setting of a room leaves it out of the bell', () => {
    const { troubles } = answer([
      ...heard('-------oxo----------', 'bell'),
      ...heard('--------o-----------'),
    ]);
    expect(troubles[0]!.words).toMatch(/^the bell in Room 109: .*, \d\d %; nothing wrong, \d+ %/);
    const [cause] = troubles[0]!.causes;
    expect(cause!.kind).toBe('own-unit');
    expect(cause!.details[0]).toMatchObject({
      mode: 'bell-setting',
      words: 'its setting leaves it out of the bell',
    });
  });

  it('tells the parts of the head-end apart, and sends nobody there first', () => {
    const { troubles, first } = answer([
      ...heard('oooooooooooooooooooo', 'bell'),
      ...heard('xxxxxxxxxxxxxxxxxxxx'),
    ]);
    expect(troubles[0]!.words).toMatch(
      /^announcements in Rooms 101 to 120: the microphone at the head-end, \d+ %/,
    );
    expect(first({ officeChecks: [OFFICE_CHECK] })).toEqual({
      kind: 'office',
      words:
        'First: look whether it is on. Nobody has to travel for it, it takes about a minute, and it tells most for that.',
    });
  });

  it('doubts the drawing where rooms in the middle are silent, and says which look tells', () => {
    const { doubts, first } = answer(heard('ooooxxxxoooooooooooo', 'announcement', 'technician'));
    expect(doubts.map(({ kind }) => kind).sort()).toEqual(['branch', 'end']);
    const branch = doubts.find(({ kind }) => kind === 'branch')!;
    expect(branch.words).toMatch(
      /^the drawing may be wrong: Rooms 105 to 108 may hang from a branch at Room 104, \d+ %$/,
    );
    expect(branch.tellApartWords).toBe(
      'count the cables at Room 104: 2 by the drawing, 3 if it is wrong so',
    );
    expect(doubts.find(({ kind }) => kind === 'end')!.words).toMatch(
      /Rooms 105 to 108 may lie behind the end of trunk A/,
    );
    const sure = doubts.map((one) => ({ ...one, probability: 0.4 }));
    expect(first({ drawing: sure, officeChecks: [OFFICE_CHECK] }).kind).toBe('drawing');
    // One of the two is as drawn: the other is likelier wrong than not by itself, and no less likely than that.
    const [one, other] = sure as [(typeof sure)[number], (typeof sure)[number]];
    const settled = [{ ...one, settled: 'as-drawn' as const }, other];
    expect(first({ drawing: settled }).words).toContain(other.tellApartWords);
    const less = settled.map((doubt) => ({ ...doubt, probability: 0.3 }));
    expect(first({ drawing: less }).kind).not.toBe('drawing');
    const both = sure.map((doubt) => ({ ...doubt, settled: 'as-drawn' as const }));
    expect(first({ drawing: both }).kind).not.toBe('drawing');
  });

  it('names the group that is switched off', () => {
    const drawing = drawn((room) => (room <= 10 ? { groups: ['ground floor'] } : {}));
    const { troubles } = answer(heard('xxxxxxxxxxoooooooooo'), { drawing });
    expect(troubles[0]!.words).toMatch(
      /^announcements in Rooms 101 to 110: the group “ground floor” switched off at the head-end, \d\d %; announcements of the group/,
    );
  });

  it('says of a broken line one trouble, which adds up', () => {
    const { troubles, first } = answer(heard('ooooooooooooxxxxxxxx'));
    expect(troubles).toHaveLength(1);
    expect(troubles[0]!.words).toMatch(
      /^announcements in Rooms 113 to 120: between Room 112 and Room 113 on trunk A, 9\d %; /,
    );
    expect(troubles[0]!.causes[0]!.details.map(({ words }) => words)).toEqual(
      expect.arrayContaining(['terminals at Room 112 OUT', 'terminals at Room 113 IN', 'cable']),
    );
    expect(first({ officeChecks: [OFFICE_CHECK] }).kind).toBe('office');
    expect(first().words).toMatch(/^First: go and look between Room 112 and Room 113 on trunk A\./);
  });

  it('keeps two breaks apart, and rooms that were not said out of both', () => {
    const { troubles } = answer([...heard('ooooxooooooooo--xx-x', 'announcement', 'technician')]);
    expect(troubles.map(({ missed }) => missed[0]!.rooms.map(({ node }) => node))).toEqual([
      ['A5'],
      ['A17', 'A18', 'A20'],
    ]);
    expect(troubles[1]!.words).toMatch(/^announcements in Room 117, Room 118 and Room 120: /);
  });

  it('says of a short that it lies somewhere on the line, and how to halve it', () => {
    const { troubles } = answer([
      ...heard('xxxxxxxxxxxxxxxxxxxx'),
      ...heard('oooooooooooooooooooo', 'lamp'),
    ]);
    const short = troubles[0]!.causes.find(({ kind }) => kind === 'short')!;
    expect(short.words).toBe('a short somewhere on trunk A');
    expect(short.halve).toMatchObject({ trunk: 'A', node: 'A10', room: 'Room 110' });
    expect(short.halve!.behind).toBeGreaterThan(0.4);
    expect(short.halve!.behind).toBeLessThan(0.6);
    expect(troubles[0]!.causes.filter(({ kind }) => kind === 'short')).toHaveLength(1);
  });

  it('adds up to 100 % whatever was said', () => {
    for (const rooms of [
      'xxxxxxxxxxxxxxxxxxxx',
      'ooowwwxxxwwwxxxoooxx',
      'x-------------------',
      'wwwwwwwwwwwwwwwwwwww',
    ])
      for (const { causes } of answer(heard(rooms)).troubles) {
        expect(causes.reduce((sum, { percent }) => sum + percent, 0)).toBe(100);
        expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        expect(causes.slice(0, -1).every(({ kind }) => kind !== 'rest')).toBe(true);
      }
  });

  it('lists apart what is likely broken and explains nothing', () => {
    const looks = [
      {
        place: { kind: 'station', trunk: 'A', node: 'A20' },
        part: 'unit',
        seen: 'faulty',
      } as const,
    ];
    const { alsoBroken } = answer(heard('ooooooxxxxxxxxxxxxx-'), { looks, exposureDays: 900 });
    expect(alsoBroken.map(({ words }) => words)).toEqual([
      expect.stringMatching(
        /^may also be broken, though nothing that was reported comes of it: the station in Room 120 on trunk A, \d\d %$/,
      ),
    ]);
    expect(answer(heard('ooooooxxxxxxxxxxxxxx')).alsoBroken).toEqual([]);
  });

  it('has nothing to say first where nothing was missed', () => {
    expect(answer(heard('oooooooooooooooooooo')).first()).toEqual({
      kind: 'nothing',
      words: 'Nothing is reported that does not work.',
    });
  });
});

describe('who contradicts whom', () => {
  const told = (
    id: number,
    saidBy: string,
    outcome: Outcome,
    more: Partial<Heard> = {},
  ): Heard => ({
    id: `${id}`,
    trunk: 'A',
    node: 'A9',
    function: 'announcement',
    outcome,
    saidBy,
    saidByKind: 'office',
    how: 'gone-through',
    observedAt: new Date('2026-03-02T08:00:00Z'),
    period: 0,
    withdrawalId: null,
    ...more,
  });
  const say = (all: Heard[], against: { observation: number; given: number }[] = []) =>
    contradictions(all, against).flatMap((one) => sayContradiction(one, drawn(), EN));

  it('is told with both names, once', () => {
    const two = [told(1, 'Mara Quill', 'works'), told(2, 'Tem Sorrel', 'fails')];
    expect(say(two, [{ observation: 1, given: 0.02 }])).toEqual([
      expect.objectContaining({
        words:
          'Room 109, announcements: Mara Quill says it works and Tem Sorrel says it does not work. Both cannot be so: ask again there.',
        given: null,
        said: [
          { observationId: '1', saidBy: 'Mara Quill', outcome: 'works' },
          { observationId: '2', saidBy: 'Tem Sorrel', outcome: 'fails' },
        ],
      }),
    ]);
  });

  it('is nobody where one spoke twice, of another room, or another time', () => {
    const first = told(1, 'Mara Quill', 'works');
    expect(say([first, told(2, 'mara  quill', 'fails')])).toEqual([]);
    expect(say([first, told(2, 'Tem Sorrel', 'fails', { node: 'A8' })])).toEqual([]);
    const later = { observedAt: new Date('2026-03-05T08:00:00Z') };
    expect(say([first, told(2, 'Tem Sorrel', 'fails', later)])).toEqual([]);
    expect(say([first, told(2, 'Tem Sorrel', 'fails', { disconnectedBelow: 'A12' })])).toEqual([]);
    expect(say([first, told(2, 'Tem Sorrel', 'weak')])).toEqual([]);
  });

  it('names whoever says what hardly goes with the rest', () => {
    expect(say([told(1, 'Mara Quill', 'works')], [{ observation: 0, given: 0.004 }])).toEqual([
      expect.objectContaining({
        words:
          'Room 109, announcements: Mara Quill says it works. That hardly goes with all the rest: ask again there.',
        given: 0.004,
      }),
    ]);
  });
});
