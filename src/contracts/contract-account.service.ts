import { Injectable } from '@nestjs/common';
import { InvalidInputError, StaleVersionError } from '../shared/domain-error.js';
import { patchFields } from '../shared/validation.js';
import { accountOf } from './contract-account.js';
import {
  type ContractAccountDto,
  type FirmPricesDto,
  FirmPricesFieldsDto,
} from './contract-account.dto.js';
import { ContractAccountRepository } from './contract-account.repository.js';
import { contractYears } from './contract-year.js';
import { ContractService } from './contract.service.js';
import type { FirmPrices } from './firm-prices.entity.js';

/** Before anybody said anything. */
const NO_PRICES: FirmPricesDto = {
  currency: 'EUR',
  hourMinor: 0,
  travelHourMinor: 0,
  parts: [],
  version: 0,
};

/** What contracts take against what they bring, and the prices that it is reckoned with. */
@Injectable()
export class ContractAccountService {
  constructor(
    private readonly accounts: ContractAccountRepository,
    private readonly contracts: ContractService,
  ) {}

  async account(contractId: string): Promise<ContractAccountDto> {
    const contract = await this.contracts.find(contractId);
    const years = contractYears(contract);
    const rows = await this.accounts.listTaken(contractId, years);
    const kept = await this.accounts.listKept(contractId, years);
    const account = accountOf(contract, rows, kept, await this.accounts.findPrices());
    return { contractId, currency: contract.currency, ...account };
  }

  async prices(): Promise<FirmPricesDto> {
    const prices = await this.accounts.findPrices();
    return prices === null ? NO_PRICES : toPrices(prices);
  }

  async changePrices(version: number, patch: Record<string, unknown>): Promise<FirmPricesDto> {
    const prices = await this.prices();
    if (prices.version !== version) throw new StaleVersionError(prices.version);
    const fields = await patchFields(FirmPricesFieldsDto, prices, patch);
    refuseSecondPrices(fields.parts);
    const changed = { ...fields, version: version + 1 };
    await this.accounts.putPrices(changed);
    return changed;
  }
}

/** Of two prices of one part, only the first would ever count. */
function refuseSecondPrices(parts: readonly { name: string }[]): void {
  const names = parts.map(({ name }) => name.toLowerCase());
  const errors = names.flatMap((name, index) => {
    const isSecond = names.indexOf(name) < index;
    return isSecond ? [{ field: `/parts/${index}/name`, reason: 'has a price already' }] : [];
  });
  if (errors.length > 0) throw new InvalidInputError(errors);
}

function toPrices({ firmId: _firmId, ...prices }: FirmPrices): FirmPricesDto {
  return prices;
}
