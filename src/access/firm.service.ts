import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { FirmRepository } from './firm.repository.js';

@Injectable()
export class FirmService {
  constructor(
    private readonly repository: FirmRepository,
    private readonly clock: Clock,
  ) {}

  /** Makes sure that the firm which this installation serves is in the database. */
  async ensure(name: string): Promise<void> {
    await this.repository.ensure(name, this.clock.now());
  }
}
