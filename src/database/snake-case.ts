import { DefaultNamingStrategy, type Table } from 'typeorm';

/**
 * `cableMetres` in code is `cable_metres` in the database: one name through all layers. Constraints
 * and indexes have the names that PostgreSQL itself gives when the SQL of a migration names none.
 */
export class SnakeCase extends DefaultNamingStrategy {
  override columnName(property: string, custom: string | undefined, prefixes: string[]): string {
    return [...prefixes, custom ?? property].map(toSnakeCase).join('_');
  }

  override primaryKeyName(table: Table | string): string {
    return `${nameOf(table)}_pkey`;
  }

  override foreignKeyName(table: Table | string, columns: string[]): string {
    return [nameOf(table), ...columns, 'fkey'].join('_');
  }

  override uniqueConstraintName(table: Table | string, columns: string[]): string {
    return [nameOf(table), ...columns, 'key'].join('_');
  }

  override indexName(table: Table | string, columns: string[]): string {
    return [nameOf(table), ...columns, 'idx'].join('_');
  }
}

function nameOf(table: Table | string): string {
  return typeof table === 'string' ? table : table.name;
}

function toSnakeCase(name: string): string {
  return name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}
