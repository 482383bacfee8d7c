import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { withClient } from '#app/database/built-in-roles.js';

import { ClonedDatabase, cloneDatabase } from './support/clone-database.js';

describe('cloneDatabase', () => {
  let clones: ClonedDatabase[];

  beforeAll(async () => {
    clones = await Promise.all([cloneDatabase(), cloneDatabase()]);
  });

  afterAll(async () => {
    for (const clone of clones) await clone.drop();
  });

  it('gives each its own database, with the rights of the real one', async () => {
    const [one, other] = clones as [ClonedDatabase, ClonedDatabase];
    await withClient(one.ownerUrl, (client) => client.query('create table rooms (name text)'));
    const { rows } = await withClient(one.appUrl, async (client) => {
      await client.query("insert into rooms values ('Hall'), ('étage'), ('attic')");
      return client.query<{ name: string }>('select name from rooms order by name');
    });
    expect(rows.map(({ name }) => name)).toEqual(['Hall', 'attic', 'étage']);
    await withClient(one.appUrl, (client) =>
      expect(client.query('create table sneaked ()')).rejects.toThrow('permission denied'),
    );
    await withClient(other.appUrl, (client) =>
      expect(client.query('select from rooms')).rejects.toThrow('does not exist'),
    );
  });

  it('names the database after the test file, and drops it though clients are connected', async () => {
    const clone = await cloneDatabase();
    expect(new URL(clone.appUrl).pathname).toMatch(/^\/test_clone_database_\d+_[0-9a-f]{8}$/);
    await withClient(clone.appUrl, async (client) => {
      await clone.drop();
      await expect(client.query('select')).rejects.toThrow();
    });
    await withClient(clone.appUrl, () => Promise.resolve()).then(
      () => expect('connected').toBe('refused'),
      (error: Error) => expect(error.message).toContain('does not exist'),
    );
  });
});
