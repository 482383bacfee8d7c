import { PAGE_FORMATS } from '../../parts/language.js';
import { useService } from '../../parts/service-context.js';
import { TableWithSheet } from '../../parts/sheet-table.js';
import { Loaded } from '../../parts/states.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadContract, ReadShouldCost } from '../../parts/wire.js';
import { FeeBar } from './contract-figures.js';
import { major, money } from './money.js';
import { CONTRACT_WORDS, PRICES_WORDS } from '../words/words.js';

interface ShouldCostProps {
  contract: ReadContract;
  told: ReadShouldCost;
}

/** What the next year of its sites is expected to take, beside the fee. */
export function ContractShouldCost({ contract }: { contract: ReadContract }) {
  const service = useService();
  const read = useRead(`should cost ${contract.id}`, () =>
    service.read<ReadShouldCost>(`/contracts/${contract.id}/should-cost`),
  );
  return (
    <section>
      <h2>{CONTRACT_WORDS.shouldCost.title}</h2>
      <Loaded read={read}>{(told) => <NextYear contract={contract} told={told} />}</Loaded>
    </section>
  );
}

function NextYear({ contract, told }: ShouldCostProps) {
  const words = CONTRACT_WORDS.shouldCost;
  const { coverage, currency, parts } = told;
  const { callOuts, upkeepVisits, mendings } = told.learnedFrom;
  const unpriced = parts.filter(({ minor }) => minor === null).map(({ name }) => name);
  return (
    <>
      <p class="hint">
        {words.hint(PAGE_FORMATS.chance(coverage))}{' '}
        {words.learnedFrom(callOuts, upkeepVisits, mendings)}
      </p>
      <p class="no-print">
        <a href="/desk/prices">{PRICES_WORDS.title}</a>
      </p>
      <FeeBeside contract={contract} told={told} />
      {contract.kind === 'labour-only' && <p>{CONTRACT_WORDS.partsPaid}</p>}
      {currency !== null && unpriced.length > 0 && (
        <p>{CONTRACT_WORDS.unpriced(unpriced.join(', '))}</p>
      )}
      <RangeTable contract={contract} told={told} />
    </>
  );
}

function FeeBeside({ contract, told }: ShouldCostProps) {
  const words = CONTRACT_WORDS.shouldCost;
  const { costMinor, currency, feeMinor, chanceFeeCovers, draws } = told;
  const fee = money(contract.feeMinor, contract.currency);
  if (costMinor === null || currency === null) return <p>{words.fee(fee)}</p>;
  const { mean, low, high } = costMinor;
  return (
    <div class="fee-year">
      <p>
        {words.feeAgainst(fee, money(mean, currency), money(low, currency), money(high, currency))}{' '}
        {chanceFeeCovers !== null && words.covers(chanceByDraws(chanceFeeCovers, draws))}
      </p>
      {/* Amounts of two currencies are no two bars of one scale. */}
      {feeMinor !== null && <FeeBar feeMinor={feeMinor} costMinor={mean} />}
    </div>
  );
}

type Range = ReadShouldCost['callOuts'];

/** A line of the table: a range, and how its ends are written. */
interface RangeLine {
  what: string;
  range: Range | null;
  inFile: (value: number) => number;
  shown: (value: number) => string;
}

function RangeTable({ contract, told }: ShouldCostProps) {
  const words = CONTRACT_WORDS;
  const own = words.shouldCost;
  const end = (head: string, of: (range: Range) => number) => ({
    head,
    value: ({ range, inFile }: RangeLine) => (range === null ? null : inFile(of(range))),
    shown: ({ range, shown }: RangeLine) => (range === null ? words.costUnknown : shown(of(range))),
  });
  return (
    <TableWithSheet
      label={own.title}
      stacks
      download={words.csv}
      fileName={`${contract.title}, ${own.title}`}
      rows={linesOf(told)}
      keyOf={({ what }) => what}
      columns={[
        { head: own.what, value: ({ what }) => what },
        end(own.expected, ({ mean }) => mean),
        end(own.low, ({ low }) => low),
        end(own.high, ({ high }) => high),
      ]}
    />
  );
}

function linesOf(told: ReadShouldCost): RangeLine[] {
  const words = CONTRACT_WORDS;
  const currency = told.currency ?? '';
  const amount = {
    inFile: (minor: number) => major(minor, currency),
    shown: (minor: number) => money(minor, currency),
  };
  const minutes = { inFile: Math.round, shown: words.minutes };
  const count = {
    inFile: (value: number) => value,
    shown: (value: number) => PAGE_FORMATS.figure(value, 2),
  };
  return [
    { what: words.calls, range: told.callOuts, ...count },
    { what: words.onSite, range: told.minutesOnSite, ...minutes },
    { what: words.onTheRoad, range: told.travelMinutes, ...minutes },
    { what: words.parts, range: told.partsMinor, ...amount },
    { what: words.shouldCost.cost, range: told.costMinor, ...amount },
  ];
}

/** That all of so many draws say the same makes nothing certain. */
function chanceByDraws(chance: number, draws: number): string {
  const nearest = 0.5 / draws;
  return PAGE_FORMATS.chance(Math.min(1 - nearest, Math.max(nearest, chance)));
}
