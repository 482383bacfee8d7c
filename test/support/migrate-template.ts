import { migrate } from '#app/database/migrate.js';

/** Brings the template database, which every test file's database is cloned from, to the current schema. */
export function migrateTemplate(ownerUrl: string, appUrl: string): Promise<void> {
  return migrate(ownerUrl, appUrl);
}
