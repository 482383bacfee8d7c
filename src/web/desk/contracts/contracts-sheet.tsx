import { SheetLink } from '../../parts/sheet-table.js';
import { today } from '../../parts/local-day.js';
import type { ReadClient, ReadContract } from '../../parts/wire.js';
import type { ContractFigures } from './contract-figures.js';
import { breachesOf, costOf, visitsDone, yearOn } from './contract-year.js';
import { dayBeside } from '../days/day-lanes.js';
import { major } from './money.js';
import { CONTRACT_WORDS } from '../words/words.js';

interface ContractsSheetProps {
  contracts: readonly ReadContract[];
  clients: readonly ReadClient[];
  /** By contract; what is not read yet, or could not be, is left empty. */
  figures: Readonly<Record<string, ContractFigures>>;
}

/** The list of contracts as a file: what the table tells in words, in numbers. */
export function ContractsSheet({ contracts, clients, figures }: ContractsSheetProps) {
  const words = CONTRACT_WORDS;
  const ofYear = ({ id }: ReadContract) => yearOn(figures[id]?.visits.years ?? [], today());
  const account = ({ id }: ReadContract) => yearOn(figures[id]?.account?.years ?? [], today());
  const amount = (minor: number | null | undefined, currency: string) =>
    minor === null || minor === undefined ? null : major(minor, currency);
  const ofAccount = <Value,>(
    contract: ReadContract,
    of: (year: NonNullable<ReturnType<typeof account>>) => Value,
  ) => {
    const year = account(contract);
    return year === undefined ? null : of(year);
  };
  const done = (contract: ReadContract) => {
    const year = ofYear(contract);
    return year === undefined ? null : visitsDone(year);
  };
  return (
    <SheetLink
      label={words.title}
      download={words.csv}
      fileName={words.title}
      rows={contracts}
      columns={[
        { head: words.name, value: ({ title }) => title },
        { head: words.client, value: (one) => clientOf(one, clients) },
        { head: words.sites, value: ({ siteIds }) => siteIds.length },
        { head: words.from, value: ({ from }) => from },
        { head: words.last, value: ({ until }) => dayBeside(until, -1) },
        { head: words.inSheet.visitsDone, value: done },
        { head: words.inSheet.visitsPromised, value: (one) => ofYear(one)?.promised ?? null },
        {
          head: words.breaches,
          value: (one) => ofAccount(one, (year) => breachesOf(year).broken),
        },
        {
          head: words.inSheet.promisesSettled,
          value: (one) => ofAccount(one, (year) => breachesOf(year).settled),
        },
        {
          head: words.feeOfYear,
          value: (one) =>
            amount(
              ofAccount(one, ({ feeMinor }) => feeMinor),
              one.currency,
            ),
        },
        {
          head: words.shouldCost.cost,
          value: (one) => amount(ofAccount(one, costOf), one.currency),
        },
        { head: words.inSheet.currency, value: ({ currency }) => currency },
      ]}
    />
  );
}

function clientOf({ clientId }: ReadContract, clients: readonly ReadClient[]): string {
  return clients.find(({ id }) => id === clientId)?.name ?? '';
}
