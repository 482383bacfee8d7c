import type { ReadPrices } from '../../parts/wire.js';
import { major, minorOf } from '../contracts/money.js';

export interface PartPriceDraft {
  name: string;
  price: string;
}

/** Prices as they are typed, in the currency's own unit. */
export interface PricesDraft {
  currency: string;
  hour: string;
  travelHour: string;
  /** By names that stay while they are typed; undefined: taken off. */
  parts: Partial<Record<string, PartPriceDraft>>;
}

export function pricesDraft({ version, currency, parts, ...prices }: ReadPrices): PricesDraft {
  // Nobody said anything yet: no price is not a price of nothing.
  const typed = (minor: number) => (version === 0 ? '' : String(major(minor, currency)));
  return {
    currency,
    hour: typed(prices.hourMinor),
    travelHour: typed(prices.travelHourMinor),
    parts: Object.fromEntries(
      parts.map(({ name, minor }) => [
        name.toLowerCase(),
        { name, price: String(major(minor, currency)) },
      ]),
    ),
  };
}

/** One more part, with nothing typed. */
export function withPart(parts: PricesDraft['parts']): PricesDraft['parts'] {
  let nth = 1;
  while (`new ${nth}` in parts) nth += 1;
  return { ...parts, [`new ${nth}`]: { name: '', price: '' } };
}

/** Those that are sent, in their order; a line on which nothing is typed is none. */
export function pricedParts({ parts }: PricesDraft): (PartPriceDraft & { key: string })[] {
  return Object.entries(parts).flatMap(([key, part]) =>
    part === undefined || (part.name.trim() === '' && part.price.trim() === '')
      ? []
      : [{ key, ...part }],
  );
}

/** Prices as they are sent, and where no amount was typed. */
export function posePrices(draft: PricesDraft, noAmount: string) {
  const currency = draft.currency.trim().toUpperCase();
  const body = {
    currency,
    hourMinor: minorOf(draft.hour, currency),
    travelHourMinor: minorOf(draft.travelHour, currency),
    parts: pricedParts(draft).map(({ name, price }) => ({
      name: name.trim(),
      minor: minorOf(price, currency),
    })),
  };
  const amounts: [string, number][] = [
    ['/hourMinor', body.hourMinor],
    ['/travelHourMinor', body.travelHourMinor],
    ...body.parts.map(({ minor }, index): [string, number] => [`/parts/${index}/minor`, minor]),
  ];
  const errors = amounts
    .filter(([, minor]) => Number.isNaN(minor))
    .map(([field]) => ({ field, reason: noAmount }));
  return { body, errors };
}
