import { PAGE_LOCALE } from '../../parts/language.js';

function styleOf(currency: string): Intl.NumberFormat {
  return new Intl.NumberFormat(PAGE_LOCALE, {
    style: 'currency',
    currency,
  });
}

/** How many digits a currency has behind the point; two where that is not known. */
function digitsOf(currency: string): number {
  try {
    return styleOf(currency).resolvedOptions().maximumFractionDigits ?? 2;
  } catch {
    return 2;
  }
}

/** An amount in minor units, as people write it: "€2,400.00". */
export function money(minor: number, currency: string): string {
  return styleOf(currency).format(major(minor, currency));
}

/** In the currency's own unit, for a sheet or a field. */
export function major(minor: number, currency: string): number {
  return minor / 10 ** digitsOf(currency);
}

/** In minor units; NaN where no number was written. A comma is a point. */
export function minorOf(written: string, currency: string): number {
  const text = written.trim().replace(',', '.');
  return /^\d+(\.\d+)?$/.test(text) ? Math.round(Number(text) * 10 ** digitsOf(currency)) : NaN;
}
