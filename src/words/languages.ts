export const LANGUAGES = ['en', 'es', 'hi', 'fr'] as const;

export type Language = (typeof LANGUAGES)[number];

export const DEFAULT_LANGUAGE: Language = 'en';

/**
 * The language of ours that somebody understands best.
 * @param accepted a list of languages with weights, as in Accept-Language (RFC 9110, section 12.5.4); what cannot be read is passed over
 */
export function chooseLanguage(accepted: string | undefined): Language {
  if (accepted === undefined) return DEFAULT_LANGUAGE;
  let best: { language: Language; weight: number } = { language: DEFAULT_LANGUAGE, weight: 0 };
  for (const part of accepted.slice(0, LONGEST_READ).split(',')) {
    const [range = '', ...parameters] = part
      .trim()
      .toLowerCase()
      .split(/\s*;\s*/);
    const weight = weightOf(parameters);
    const language =
      range === '*' ? DEFAULT_LANGUAGE : LANGUAGES.find((own) => own === range.split('-')[0]);
    if (language !== undefined && weight > best.weight) best = { language, weight };
  }
  return best.language;
}

const LONGEST_READ = 1000;

function weightOf(parameters: readonly string[]): number {
  const given = parameters.find((parameter) => parameter.startsWith('q='));
  if (given === undefined) return 1;
  const weight = Number(given.slice(2));
  return weight >= 0 && weight <= 1 ? weight : 0;
}
