import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';

interface PgPool {
  totalCount: number;
  idleCount: number;
  waitingCount: number;
}

/** How the database's pool of connections is used. */
@Injectable()
export class PoolReader {
  constructor(private readonly dataSource: DataSource) {}

  read(): { total: number; idle: number; waiting: number } {
    const { master } = this.dataSource.driver as unknown as { master: PgPool };
    return { total: master.totalCount, idle: master.idleCount, waiting: master.waitingCount };
  }
}
