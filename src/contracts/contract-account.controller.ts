import { Controller, Get, Patch } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { ContractAccountDto, FirmPricesDto, PatchFirmPricesDto } from './contract-account.dto.js';
import { ContractAccountService } from './contract-account.service.js';

/** What contracts cost. */
@ApiTags('contracts')
@Controller()
export class ContractAccountController {
  constructor(private readonly service: ContractAccountService) {}

  /**
   * Sets hours, ways and parts against the fee, by contract year and site: the visits done and the parts used at its sites in
   * that time, whatever other contract covers them too.
   */
  @Get('contracts/:contractId/account')
  @ApiProblems(404, 422)
  account(@IdParam('contractId') contractId: string): Promise<ContractAccountDto> {
    return this.service.account(contractId);
  }

  /** Reads what an hour, a way and parts cost the firm. */
  @Get('prices')
  prices(): Promise<FirmPricesDto> {
    return this.service.prices();
  }

  /** Changes prices by a merge patch. */
  @Patch('prices')
  @ApiBody({ type: PatchFirmPricesDto })
  @ApiProblems(412, 422, 428)
  changePrices(
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<FirmPricesDto> {
    return this.service.changePrices(version, patch);
  }
}
