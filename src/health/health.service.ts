import { Injectable } from '@nestjs/common';
import { HealthRepository } from './health.repository.js';

@Injectable()
export class HealthService {
  constructor(private readonly repository: HealthRepository) {}

  async checkDatabase(): Promise<void> {
    await this.repository.ask();
  }
}
