import { Global, type DynamicModule, Module, type OnApplicationShutdown } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { createDataSource, outliveLostConnections } from './data-source.js';
import { FirmRepository } from './firm.repository.js';
import { FirmTransaction } from './firm-transaction.js';
import { SafeRepeatRepository } from './safe-repeat.repository.js';
import { SafeRepeatService } from './safe-repeat.service.js';
import { SentTogether } from './sent-together.js';

@Global()
@Module({})
export class DatabaseModule implements OnApplicationShutdown {
  constructor(private readonly dataSource: DataSource) {}

  static connect(appUrl: string): DynamicModule {
    return {
      module: DatabaseModule,
      providers: [
        {
          provide: DataSource,
          useFactory: async () =>
            outliveLostConnections(await createDataSource(appUrl).initialize()),
        },
        FirmRepository,
        FirmTransaction,
        SafeRepeatRepository,
        SafeRepeatService,
        SentTogether,
      ],
      exports: [DataSource, FirmRepository, FirmTransaction, SafeRepeatService, SentTogether],
    };
  }

  async onApplicationShutdown(): Promise<void> {
    await this.dataSource.destroy();
  }
}
