import type { Language } from '#app/words/index.js';
import type { DeskWords } from './words-en.js';

const FILES: Readonly<Record<Language, () => Promise<DeskWords>>> = {
  en: async () => (await import('./words-en.js')).DESK_IN_EN,
  es: async () => (await import('./words-es.js')).DESK_IN_ES,
  hi: async () => (await import('./words-hi.js')).DESK_IN_HI,
  fr: async () => (await import('./words-fr.js')).DESK_IN_FR,
};

let loaded: DeskWords | undefined;

/** To be waited for before anything that says something is imported: the desk says too much to bring every language. */
export async function loadDeskWords(language: Language): Promise<void> {
  loaded = await FILES[language]();
}

export function deskWords(): DeskWords {
  if (loaded === undefined) throw new Error('The words were not loaded yet');
  return loaded;
}
