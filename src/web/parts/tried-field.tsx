import { FUNCTIONS_AS_ASKED } from '#app/words/index.js';
import { Choice } from './choice.js';
import { PAGE_WORDS } from './language.js';
import type { ToldFunction } from './wire.js';

interface TriedFieldProps {
  legend: string;
  value: ToldFunction | undefined;
  onValue: (value: ToldFunction) => void;
  error: string | undefined;
  /** What stands beside the name of some. */
  beside?: Readonly<Partial<Record<ToldFunction, string>>>;
}

/** What was tried when the rooms were silent. */
export function TriedField({ beside = {}, ...props }: TriedFieldProps) {
  const nameOf = (name: ToldFunction) =>
    [PAGE_WORDS.functions[name].tried, beside[name]].filter(Boolean).join(': ');
  const names = Object.fromEntries(FUNCTIONS_AS_ASKED.map((name) => [name, nameOf(name)]));
  return <Choice {...props} names={names} of={FUNCTIONS_AS_ASKED} />;
}
