/** Brings the template database, which every test file's database is cloned from, to the current schema. */
export function migrateTemplate(ownerUrl: string): Promise<void> {
  // There are no migrations yet: the template is an empty database with its two roles.
  void ownerUrl;
  return Promise.resolve();
}
