import type { Formats } from './formats.js';

const HOURS_PER_DAY = 24;
const HOURS_TOLD = 72;

/** Hours while they are few, else days. */
export function spanIn(
  formats: Formats,
  { hour, days }: { hour: string; days: string },
): (hours: number) => string {
  return (hours) =>
    hours < HOURS_TOLD
      ? `${formats.figure(hours)} ${hour}`
      : `${formats.figure(hours / HOURS_PER_DAY)} ${days}`;
}

/** "3 h 20 min", whole minutes. */
export function minutesIn(hour: string, minute: string): (minutes: number) => string {
  return (minutes) => {
    const whole = Math.round(minutes);
    return minutes < 60
      ? `${whole} ${minute}`
      : `${Math.floor(whole / 60)} ${hour} ${whole % 60} ${minute}`;
  };
}

/** Minor units as the language writes money of that currency. */
export function moneyIn(locale: string): (minor: number, currency: string) => string {
  return (minor, currency) => {
    const money = new Intl.NumberFormat(locale, { style: 'currency', currency });
    const { maximumFractionDigits = 2 } = money.resolvedOptions();
    return money.format(minor / 10 ** maximumFractionDigits);
  };
}
