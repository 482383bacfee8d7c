import { type Language, LANGUAGES, pageWordsIn } from '#app/words/index.js';
import { keepLanguage, PAGE_LANGUAGE } from '../parts/language.js';

/** Each language in its own name, for whoever was given another. */
export function LanguageChoice() {
  const choose = (language: Language) => {
    keepLanguage(language);
    location.reload();
  };
  return (
    <nav class="languages" aria-label={LANGUAGES.map((one) => pageWordsIn(one).ownName).join(', ')}>
      {LANGUAGES.map((language) => (
        <button
          key={language}
          type="button"
          lang={language}
          aria-pressed={language === PAGE_LANGUAGE}
          onClick={() => choose(language)}
        >
          {pageWordsIn(language).ownName}
        </button>
      ))}
    </nav>
  );
}
