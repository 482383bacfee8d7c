import { type Language, LANGUAGES, pageWordsIn } from '#app/words/index.js';
import { keepLanguage, PAGE_LANGUAGE } from './language.js';

interface LanguageChoiceProps {
  /** Keeps it where that is more than in this browser. */
  onChoose?: (language: Language) => Promise<void>;
}

/** Each language in its own name, for whoever was given another. */
export function LanguageChoice({ onChoose }: LanguageChoiceProps) {
  const choose = async (language: Language) => {
    await onChoose?.(language);
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
          onClick={() => void choose(language)}
        >
          {pageWordsIn(language).ownName}
        </button>
      ))}
    </nav>
  );
}
