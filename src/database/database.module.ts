import { Global, type DynamicModule, Module, type OnApplicationShutdown } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { assertSafeRole } from './assert-safe-role.js';
import { CurrentFirm } from './current-firm.js';
import { createDataSource } from './data-source.js';
import { FirmTransaction } from './firm-transaction.js';

@Global()
@Module({})
export class DatabaseModule implements OnApplicationShutdown {
  constructor(private readonly dataSource: DataSource) {}

  static connect(appUrl: string, firmId: string): DynamicModule {
    return {
      module: DatabaseModule,
      providers: [
        { provide: CurrentFirm, useValue: new CurrentFirm(firmId) },
        {
          provide: DataSource,
          useFactory: async () => {
            const dataSource = await createDataSource(appUrl).initialize();
            await assertSafeRole(dataSource);
            return dataSource;
          },
        },
        FirmTransaction,
      ],
      exports: [CurrentFirm, DataSource, FirmTransaction],
    };
  }

  async onApplicationShutdown(): Promise<void> {
    await this.dataSource.destroy();
  }
}
