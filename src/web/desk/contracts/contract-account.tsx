import { TableWithSheet } from '../../parts/sheet-table.js';
import type { ReadContractAccount } from '../../parts/wire.js';
import { CostChart, HoursChart } from './account-charts.js';
import { FeeBar } from './contract-figures.js';
import type { ContractRead } from './contract-page.js';
import { type AccountYear, costOf } from './contract-year.js';
import { major, money } from './money.js';
import { CONTRACT_WORDS } from '../words/words.js';

interface AccountProps extends ContractRead {
  account: ReadContractAccount;
}

/** The fee against what it cost by year, with the figures behind it. */
export function ContractAccount(props: AccountProps) {
  const { account } = props;
  const words = CONTRACT_WORDS;
  const unpriced = [...new Set(account.years.flatMap((year) => year.unpricedParts))];
  const inWords = (minor: number) => money(minor, account.currency);
  return (
    <section>
      <h2>{words.account}</h2>
      <p class="hint">{words.accountHint}</p>
      {account.years.map((year) => {
        const cost = costOf(year);
        return cost === null ? null : (
          <div key={year.year} class="fee-year">
            <p>{words.drawn(year.year, inWords(year.feeMinor), inWords(cost))}</p>
            <FeeBar feeMinor={year.feeMinor} costMinor={cost} />
          </div>
        );
      })}
      {account.years.some(({ partsArePaidFor }) => partsArePaidFor) && <p>{words.partsPaid}</p>}
      {unpriced.length > 0 && <p>{words.unpriced(unpriced.join(', '))}</p>}
      <CostChart {...props} />
      <YearTable {...props} />
      <KeptTable {...props} />
      <LineTable {...props} />
    </section>
  );
}

function YearTable({ account, contract }: AccountProps) {
  const words = CONTRACT_WORDS;
  const amount = (head: string, of: (year: AccountYear) => number | null) => ({
    head,
    value: (year: AccountYear) => {
      const minor = of(year);
      return minor === null ? null : major(minor, account.currency);
    },
    shown: (year: AccountYear) => {
      const minor = of(year);
      return minor === null ? words.costUnknown : money(minor, account.currency);
    },
  });
  return (
    <TableWithSheet
      label={words.account}
      download={words.csv}
      fileName={`${contract.title}, ${words.account}`}
      rows={account.years}
      keyOf={({ year }) => String(year)}
      columns={[
        { head: words.year, value: ({ year }) => year },
        amount(words.feeOfYear, ({ feeMinor }) => feeMinor),
        amount(words.labour, ({ labourMinor }) => labourMinor),
        amount(words.ways, ({ travelMinor }) => travelMinor),
        amount(words.parts, ({ partsMinor }) => partsMinor),
        amount(words.balance, ({ balanceMinor }) => balanceMinor),
        { head: words.onSite, value: ({ minutesOnSite }) => Math.round(minutesOnSite) },
        { head: words.onTheRoad, value: ({ travelMinutes }) => Math.round(travelMinutes) },
        { head: words.calls, value: ({ callOuts }) => callOuts },
        { head: words.callsBeyond, value: ({ callOutsBeyond }) => callOutsBeyond },
      ]}
    />
  );
}

function KeptTable({ account, contract }: AccountProps) {
  const words = CONTRACT_WORDS;
  const rows = account.years.flatMap(({ year, kept }) => kept.map((one) => ({ year, ...one })));
  if (rows.length === 0) return null;
  return (
    <>
      <h3>{words.keptInYear}</h3>
      <TableWithSheet
        label={words.keptInYear}
        download={words.csv}
        fileName={`${contract.title}, ${words.keptInYear}`}
        rows={rows}
        keyOf={({ year, promise }) => `${year} ${promise}`}
        columns={[
          { head: words.year, value: ({ year }) => year },
          { head: words.terms, value: ({ promise }) => words.promises[promise] },
          { head: words.met, value: ({ met }) => met },
          { head: words.breached, value: ({ breached }) => breached },
          { head: words.open, value: ({ open }) => open },
        ]}
      />
    </>
  );
}

function LineTable({ account, contract, sites }: AccountProps) {
  const words = CONTRACT_WORDS;
  const nameOf = (id: string) => sites.find((site) => site.id === id)?.name ?? '';
  return (
    <>
      <h3>{words.bySite}</h3>
      <HoursChart account={account} nameOf={nameOf} />
      <TableWithSheet
        label={words.bySite}
        download={words.csv}
        fileName={`${contract.title}, ${words.bySite}`}
        rows={account.lines}
        keyOf={({ siteId, year }) => `${siteId} ${year}`}
        columns={[
          { head: words.site, value: ({ siteId }) => nameOf(siteId) },
          { head: words.year, value: ({ year }) => year },
          { head: words.plannedVisits, value: ({ plannedVisits }) => plannedVisits },
          { head: words.calls, value: ({ callOuts }) => callOuts },
          { head: words.onSite, value: ({ minutesOnSite }) => Math.round(minutesOnSite) },
          { head: words.onTheRoad, value: ({ travelMinutes }) => Math.round(travelMinutes) },
          { head: words.withoutTravel, value: ({ visitsWithoutTravel }) => visitsWithoutTravel },
          {
            head: words.parts,
            value: ({ parts }) =>
              parts.map(({ name, quantity }) => `${quantity} × ${name}`).join(', '),
          },
        ]}
      />
    </>
  );
}
