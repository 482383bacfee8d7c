import { Injectable } from '@nestjs/common';
import { FirmRepository } from '../database/firm.repository.js';
import { StaleVersionError } from '../shared/domain-error.js';
import { patchFields } from '../shared/validation.js';
import { type FirmDto, FirmFieldsDto } from './firm.dto.js';

/** How the firm is known to its clients. */
@Injectable()
export class FirmService {
  constructor(private readonly repository: FirmRepository) {}

  async get(): Promise<FirmDto> {
    const { name, phone, version } = await this.repository.get();
    return { name, phone, version };
  }

  async change(version: number, patch: Record<string, unknown>): Promise<FirmDto> {
    const { version: current, ...firm } = await this.get();
    if (current !== version) throw new StaleVersionError(current);
    const changed = await patchFields(FirmFieldsDto, firm, patch);
    await this.repository.change(changed, version);
    return { ...changed, version: version + 1 };
  }
}
