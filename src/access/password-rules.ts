/** Long enough that no rule on kinds of letters is needed; the upper end only spares the hash. */
export const PASSWORD_LENGTH = { min: 12, max: 200 } as const;

/** Words that say nothing about this person but that everybody would try here. */
const WORDS_OF_THE_PLACE = ['lastheard', 'school', 'announcement', 'technician', 'dispatcher'];

/**
 * Why a password will not do, or null. `isCommon` looks a text up in the list of common passwords;
 * `personal` are words that others know about the person, such as the parts of name and e-mail.
 */
export function refusePassword(
  password: string,
  isCommon: (text: string) => boolean,
  personal: readonly string[],
): string | null {
  const length = [...password].length;
  if (length < PASSWORD_LENGTH.min) return `must have at least ${PASSWORD_LENGTH.min} characters`;
  if (length > PASSWORD_LENGTH.max) return `must have at most ${PASSWORD_LENGTH.max} characters`;
  const folded = password.toLowerCase();
  // "password2026!!" is "password" to whoever guesses.
  const stem = folded.replace(/^[^\p{L}]+|[^\p{L}]+$/gu, '');
  if (isCommon(folded) || isCommon(stem) || isRepeated(folded, isCommon)) {
    return 'is one of the passwords that are tried first';
  }
  if (new Set(folded).size < 5) return 'has too few different characters';
  const known = [...WORDS_OF_THE_PLACE, ...personal.map((word) => word.toLowerCase())];
  const rest = known
    .filter((word) => word.length >= 4)
    .reduce((left, word) => left.replaceAll(word, ''), folded);
  return [...rest].length < PASSWORD_LENGTH.min / 2
    ? 'is made of words that others know about you or this service'
    : null;
}

/** "dragondragon": a short password said again. */
function isRepeated(text: string, isCommon: (text: string) => boolean): boolean {
  const unit = /^(.+?)\1+$/u.exec(text)?.[1];
  return unit !== undefined && (isCommon(unit) || unit.length < 6);
}
