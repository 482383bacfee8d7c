import { useService } from '../../parts/service-context.js';
import { type Read, useRead } from '../../parts/use-read.js';
import type { ReadContract, ReadContractAccount, ReadContractVisits } from '../../parts/wire.js';
import { breachesOf, costOf, visitsDone, yearOn } from './contract-year.js';
import { money } from './money.js';
import { today } from '../../parts/local-day.js';
import { CONTRACT_WORDS } from '../words/words.js';

export interface ContractFigures {
  visits: ReadContractVisits;
  /** Undefined for whoever may not see what contracts cost. */
  account: ReadContractAccount | undefined;
}

/** What a contract's row tells beside its terms; read by itself, so that one that is slow holds up none. */
export function useContractFigures({ id }: ReadContract): Read<ContractFigures> {
  const service = useService();
  const seesCosts = service.session.person.role !== 'dispatcher';
  return useRead(`figures of ${id}`, async () => {
    const [visits, account] = await Promise.all([
      service.read<ReadContractVisits>(`/contracts/${id}/visits`),
      seesCosts ? service.read<ReadContractAccount>(`/contracts/${id}/account`) : undefined,
    ]);
    return { visits, account };
  });
}

function stateOf({ failure }: Read<ContractFigures>): string {
  return failure === undefined ? CONTRACT_WORDS.reading : CONTRACT_WORDS.notRead;
}

/** Two cells of the year that runs: visits done of promised, and promises not kept. */
export function VisitsAndBreaches({ read }: { read: Read<ContractFigures> }) {
  const { visits, account } = read.value ?? {};
  const year = yearOn(visits?.years ?? [], today());
  const accountYear = yearOn(account?.years ?? [], today());
  const { doneOf, brokenOf } = CONTRACT_WORDS;
  const broken = accountYear && breachesOf(accountYear);
  return (
    <>
      <td data-head={CONTRACT_WORDS.visits}>
        {read.value === undefined ? stateOf(read) : year && doneOf(visitsDone(year), year.promised)}
      </td>
      <td
        data-head={CONTRACT_WORDS.breaches}
        class={broken && broken.broken > 0 ? 'fresh' : undefined}
      >
        {broken && brokenOf(broken.broken, broken.settled)}
      </td>
    </>
  );
}

/** What the year that runs brings against what it cost, as a line and in numbers. */
export function FeeAndCost({
  read,
  contract,
}: {
  read: Read<ContractFigures>;
  contract: ReadContract;
}) {
  const year = yearOn(read.value?.account?.years ?? [], today());
  if (read.value === undefined) return <>{stateOf(read)}</>;
  if (year === undefined) return null;
  const cost = costOf(year);
  const fee = money(year.feeMinor, contract.currency);
  const { feeAgainst, costUnknown } = CONTRACT_WORDS;
  return (
    <>
      {feeAgainst(fee, cost === null ? costUnknown : money(cost, contract.currency))}
      {cost !== null && <FeeBar feeMinor={year.feeMinor} costMinor={cost} />}
    </>
  );
}

/** The cost as a part of the fee, or beyond it; the numbers stand beside it. */
export function FeeBar({ feeMinor, costMinor }: { feeMinor: number; costMinor: number }) {
  const most = Math.max(feeMinor, costMinor, 1);
  const share = (minor: number) => `${(100 * minor) / most}%`;
  return (
    <span class="fee-bar" aria-hidden="true">
      <span class="fee" style={{ width: share(feeMinor) }} />
      <span
        class={costMinor > feeMinor ? 'cost is-over' : 'cost'}
        style={{ width: share(costMinor) }}
      />
    </span>
  );
}
