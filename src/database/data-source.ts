import { DataSource } from 'typeorm';
import { entities } from './entities.js';
import { migrations } from './migrations/index.js';
import { SnakeCase } from './snake-case.js';

/** A data source on a PostgreSQL URL; the schema comes from the listed migrations alone. */
export function createDataSource(url: string, poolSize = 10): DataSource {
  return new DataSource({
    type: 'postgres',
    url,
    entities,
    migrations,
    namingStrategy: new SnakeCase(),
    synchronize: false,
    migrationsRun: false,
    poolSize,
    extra: { application_name: 'lastheard', pipeline: true },
  });
}
