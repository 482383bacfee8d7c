import { Injectable, ServiceUnavailableException } from '@nestjs/common';
import { HealthRepository } from './health.repository.js';

@Injectable()
export class HealthService {
  constructor(private readonly repository: HealthRepository) {}

  async checkDatabase(): Promise<void> {
    try {
      await this.repository.ask();
    } catch (error) {
      throw new ServiceUnavailableException('The database does not answer', { cause: error });
    }
  }
}
