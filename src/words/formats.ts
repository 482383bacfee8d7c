/** Texts for the plural categories of a language; what it does not tell apart is `other`. */
export type PluralForms = Partial<Record<Intl.LDMLPluralRule, string>> & { other: string };

/** Lists, numbers, plurals and dates as a language writes them. */
export interface Formats {
  /** "a, b and c". */
  and: (items: readonly string[]) => string;
  /** "a, b or c". */
  or: (items: readonly string[]) => string;
  /** At most so many digits that count. */
  figure: (value: number, digits?: number) => string;
  /** With so many decimals, always. */
  fixed: (value: number, decimals: number) => string;
  /** Whole percent. */
  percent: (wholePercent: number) => string;
  /** A chance; what is neither certain nor impossible is never told as 0 or 100 %. */
  chance: (chance: number) => string;
  plural: (count: number, forms: PluralForms) => string;
  /** A day as YYYY-MM-DD, with its weekday; it is the same day wherever it is read. */
  day: (day: string) => string;
  /** An instant (RFC 3339) as the clocks of a time zone show it. */
  instant: (instant: string, timeZone: string) => string;
}

export interface FormatOptions {
  lessThan: (percent: string) => string;
  moreThan: (percent: string) => string;
  /** Where the language is written otherwise here than Intl has it. */
  percent?: (wholePercent: string) => string;
  day?: (day: string) => string;
}

/** @param locale BCP 47, as Intl takes it */
export function formatsOf(locale: string, options: FormatOptions): Formats {
  const conjunction = new Intl.ListFormat(locale, { type: 'conjunction' });
  const disjunction = new Intl.ListFormat(locale, { type: 'disjunction' });
  const rules = new Intl.PluralRules(locale);
  const whole = new Intl.NumberFormat(locale, { maximumFractionDigits: 0 });
  const percents = new Intl.NumberFormat(locale, { style: 'percent' });
  const days = new Intl.DateTimeFormat(locale, { dateStyle: 'full', timeZone: 'UTC' });
  const percent = (value: number) =>
    options.percent?.(whole.format(value)) ?? percents.format(value / 100);
  return {
    and: (items) => conjunction.format(items),
    or: (items) => disjunction.format(items),
    figure: (value, digits = 3) =>
      new Intl.NumberFormat(locale, { maximumSignificantDigits: digits }).format(value),
    fixed: (value, decimals) =>
      new Intl.NumberFormat(locale, {
        minimumFractionDigits: decimals,
        maximumFractionDigits: decimals,
      }).format(value),
    percent,
    chance: (chance) => {
      const rounded = Math.round(100 * chance);
      if (rounded <= 0 && chance > 0) return options.lessThan(percent(1));
      if (rounded >= 100 && chance < 1 - 1e-9) return options.moreThan(percent(99));
      return percent(rounded);
    },
    plural: (count, forms) =>
      (forms[rules.select(count)] ?? forms.other).replace('#', whole.format(count)),
    day: (day) => {
      const written = days.format(new Date(`${day}T00:00:00Z`));
      return options.day?.(written) ?? written;
    },
    instant: (instant, timeZone) =>
      new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short', timeZone }).format(
        new Date(instant),
      ),
  };
}
