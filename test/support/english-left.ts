import type { Page } from 'playwright-core';

/** Words that English cannot do without, and that neither French nor Spanish has. */
const ENGLISH = new Set(
  'the and of with is are was were been not by from which this that it they who when what nothing nobody yet since until each'.split(
    ' ',
  ),
);

/** What is shown, read out or written in an empty field, piece by piece as the page has it. */
export function saidOn(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`(() => {
    const said = [document.title];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const { parentElement, data } = walker.currentNode;
      if (parentElement.closest('script, style, noscript, [lang]:not(html)') === null) said.push(data);
    }
    for (const one of document.querySelectorAll('[aria-label], [title], [placeholder], [alt]')) {
      for (const name of ['aria-label', 'title', 'placeholder', 'alt']) {
        said.push(one.getAttribute(name) ?? '');
      }
    }
    return [...new Set(said.map((one) => one.trim()))].filter((one) => one !== '');
  })()`);
}

/** What is English of what a page in a language of Latin letters says, beside what people entered. */
export function englishIn(
  said: readonly string[],
  entered: readonly string[],
  sentences: ReadonlySet<string>,
): string[] {
  return said.filter((one) => {
    const words =
      without(one, entered)
        .toLowerCase()
        .match(/\p{L}+/gu) ?? [];
    return sentences.has(one) || words.some((word) => ENGLISH.has(word));
  });
}

/** What is in Latin letters of what a page in Hindi says: two words in a row, as codes have too, beside what people entered. */
export function latinIn(said: readonly string[], entered: readonly string[]): string[] {
  return said.filter((one) => /[a-z]{3,}[\s,-]+[a-z]{2,}/i.test(without(one, entered)));
}

function without(said: string, entered: readonly string[]): string {
  return entered.reduce((left, data) => left.replaceAll(data, '·'), said);
}

/** What is a sentence by itself in a table of words: of two words at least, and without facts. */
export function sentencesIn(table: unknown, others: unknown): string[] {
  if (typeof table === 'string') {
    return table !== others && /\p{L}{2,}[^\p{L}]+\p{L}{2,}/u.test(table) ? [table] : [];
  }
  if (typeof table !== 'object' || table === null) return [];
  const beside = (others ?? {}) as Record<string, unknown>;
  return Object.entries(table).flatMap(([name, inner]) => sentencesIn(inner, beside[name]));
}
