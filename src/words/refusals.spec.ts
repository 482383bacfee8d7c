import { readFileSync, readdirSync } from 'node:fs';

import { describe, expect, it } from '@jest/globals';
import { REFUSALS } from './en/refusals.js';
import { ES_REFUSALS } from './es/refusals.js';
import { FR_REFUSALS } from './fr/refusals.js';
import { HI_REFUSALS } from './hi/refusals.js';
import { refusalIn } from './refusals.js';

const NAMES = Object.keys(REFUSALS) as (keyof typeof REFUSALS)[];

const holesIn = (text: string) => [...text.matchAll(/\{\d\}/g)].map(([hole]) => hole);

/** With what is told along: it holds what sentences and patterns are made with. */
const told = (text: string) => text.replaceAll(/\{(\d)\}/g, '$1.*(b),7');

describe.each([
  ['es', ES_REFUSALS],
  ['fr', FR_REFUSALS],
  ['hi', HI_REFUSALS],
] as const)('what the service says of a refusal in %s', (language, words) => {
  it('is there, is no English, and tells nothing that the English does not tell', () => {
    const wrong = NAMES.filter((name) => {
      const known = holesIn(REFUSALS[name]);
      const isMore = holesIn(words[name]).some((hole) => !known.includes(hole));
      return words[name].trim() === '' || String(words[name]) === REFUSALS[name] || isMore;
    });
    expect(wrong).toEqual([]);
  });

  it('is found by the English, whatever is told along', () => {
    const lost = NAMES.filter(
      (name) => refusalIn(language, told(REFUSALS[name])) !== told(words[name]),
    );
    expect(lost).toEqual([]);
  });

  it('is made of several sentences, each of them known', () => {
    const { noRoomHeard, meantSo } = REFUSALS;
    expect(refusalIn(language, `${noRoomHeard} ${meantSo}`)).toBe(
      `${words.noRoomHeard} ${words.meantSo}`,
    );
  });

  it('is the English within its own words where there is no sentence, or too long a one', () => {
    const own = (text: string) => words.other.replace('{0}', () => text);
    for (const text of ['is of $1 no kind', 'is missing'.padEnd(5000, '!'), 'One. Two.']) {
      expect(refusalIn(language, text)).toBe(own(text));
    }
  });
});

it('leaves English to what is said in English', () => {
  expect(refusalIn('en', 'is missing')).toBeUndefined();
});

/** What refuses what people enter on pages; what programs alone send is refused in English. */
const FOLDERS = [
  'access',
  'contracts',
  'dispatch',
  'looks',
  'notices',
  'people',
  'photos',
  'promises',
  'reports',
  'sheets',
  'sites',
  'tickets',
  'visits',
];

/** What is found and is no reason by itself, and what no form of a page can send. */
const NO_FORM_MEETS: readonly string[] = [
  // Parts of one: whole they are found.
  'is needed 7',
  '7 is fed by two: from 7 (7) and from 7 here',
  '7; left out',
  '7; save its as-built sheet as CSV in UTF-8',
  'holds a name that 7',
  'is no workbook (.xlsx): save it as one, or as CSV in UTF-8',
  'is no workbook that a spreadsheet wrote',
  'is none of the tickets that the visit is for',
  'must be 7',
  'takes too much time or memory; save its as-built sheet as CSV in UTF-8',
  'the workbook 7',
  'there is no node 7 on this trunk7',
  // Of a ticket’s log.
  'Ticket 7 was closed.',
  // Of a ticket that was closed: nobody stops its clock.
  'closed',
  // Programs send these.
  'is beside a look of its own: send one, or a list',
  'is not a cursor that was given here',
  'cannot change here: send the whole record instead',
  'holds a name that is missing',
  'must be a list of functions',
  'must be a list of names',
];

it.each([
  'must be station or junction-box',
  'holds a name that is longer than 100 characters',
  'there is no node A9 on this trunk; is A8 meant?',
  'A2 is fed by two: from the head-end (line 3) and from A1 here',
  'there is no such column in an as-built sheet; is "room" meant?; left out',
  'the workbook is no workbook (.xlsx): save it as one, or as CSV in UTF-8',
  'the workbook holds more than 24 MB unpacked; save its as-built sheet as CSV in UTF-8',
  'the workbook takes too much time or memory; save its as-built sheet as CSV in UTF-8',
])('says in each language what is put together of a sheet: %s', (english) => {
  for (const [language, { other }] of [
    ['es', ES_REFUSALS],
    ['fr', FR_REFUSALS],
    ['hi', HI_REFUSALS],
  ] as const) {
    const said = refusalIn(language, english) ?? '';
    expect(said).not.toBe(other.replace('{0}', english));
    expect(said).not.toContain('head-end');
  }
});

describe('the refusals of pages’ forms', () => {
  const reasons = FOLDERS.flatMap((folder) =>
    readdirSync(`src/${folder}`)
      .filter((file) => file.endsWith('.ts') && !file.endsWith('.spec.ts'))
      // Of a site's folder: what a line of a sheet is refused for. A survey's requests are sent by programs.
      .filter((file) => folder !== 'sites' || file.startsWith('as-built'))
      .flatMap((file) => {
        const text = readFileSync(`src/${folder}/${file}`, 'utf8');
        const literals =
          /(?:\b(?:reason|note)(?:: | =\s+|:\s+)|(?:invalid|wrong)\((?:'[^']*', |`[^`]*`, )?|refuse\([^'`;]*,\s*)(?:'([^']+)'|`([^`]+)`)/g;
        // A field whose reason is a constant: that has its sentence where it is written.
        return [...text.matchAll(literals)]
          .map(([, plain, made]) => (plain ?? made ?? '').replaceAll(/\$\{[^}]+\}/g, '7'))
          .filter((reason) => !/^7?\/\w+$/.test(reason));
      }),
  );

  it('have their sentences in each language', () => {
    expect(reasons.length).toBeGreaterThan(50);
    const unknown = reasons.filter((reason) => refusalIn('es', reason)?.includes(reason));
    expect([...new Set(unknown)].sort()).toEqual([...NO_FORM_MEETS].sort());
  });
});
