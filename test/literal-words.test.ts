import { readdirSync, readFileSync } from 'node:fs';

import { describe, expect, it } from '@jest/globals';

import { literalWordsIn } from './support/literal-words.js';

const WEB = new URL('../src/web/', import.meta.url);

/** Where the words of each language stand, and tests. */
const NOT_READ = /(?:^|\/)words(?:-\w+\.ts$|\/)|poster-words\.ts$|\.spec\.ts$/;

/** What reads like words, is never shown, and why. */
const MEANT: Readonly<Record<string, string>> = {
  'desk/sites/record-sheet.tsx new trunk in record': 'under which what was typed is kept',
};

const PLANTED = `
import { helpful } from 'a module of words';
export function Planted({ isOpen, name }: { isOpen: boolean; name: 'Some literal type' }) {
  const draft = useDraft(\`a key of a hook \${name}\`, {});
  if (!isOpen) throw new Error('Only programmers read this');
  const title = 'Tickets';
  const later = () => helpful.say('nobody heard it');
  document.title = isOpen ? 'open' : helpful.closed;
  return (
    <section class="plain wide buttons" aria-label="tickets" id="main" onKeyDown={later}>
      Nothing is silent.
      {isOpen ? 'yes' : 'no'} {isOpen && \`\${name} of them\`} · {name === 'works' && helpful.works} 7 %
      <Field label={isOpen ? helpful.title : 'name'} type="text" kind="planned" placeholder={title} />
    </section>
  );
}`;

describe('what pages say', () => {
  it('stands in the tables of words, in every language, and nowhere else', () => {
    const files = readdirSync(WEB, { recursive: true, encoding: 'utf8' })
      .filter((file) => /\.tsx?$/.test(file) && !NOT_READ.test(file))
      .sort();
    expect(files.length).toBeGreaterThan(250);
    const found = files.flatMap((file) =>
      literalWordsIn(file, readFileSync(new URL(file, WEB), 'utf8')).map(([, words]) => {
        return `${file} ${words}`;
      }),
    );
    expect(found.sort()).toEqual(Object.keys(MEANT).sort());
  });

  it('is found wherever it would be shown, and what nobody reads is not taken for it', () => {
    expect(literalWordsIn('planted.tsx', PLANTED)).toEqual([
      [6, 'Tickets'],
      [7, 'nobody heard it'],
      [8, 'open'],
      [10, 'tickets'],
      [11, 'Nothing is silent.'],
      [12, 'yes'],
      [12, 'no'],
      [12, 'of them'],
      [13, 'name'],
    ]);
  });
});
