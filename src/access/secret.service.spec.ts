import { describe, expect, it } from '@jest/globals';
import { SecretService } from './secret.service.js';

describe('SecretService', () => {
  const secrets = new SecretService();

  it('makes secrets of the asked length, never the same', () => {
    const made = Array.from({ length: 100 }, () => secrets.create());
    expect(new Set(made).size).toBe(100);
    expect(Buffer.from(made[0]!, 'base64url')).toHaveLength(32);
    expect(Buffer.from(secrets.create(16), 'base64url')).toHaveLength(16);
  });

  it('hashes as SHA-256', () => {
    // FIPS 180-4, the example message "abc".
    expect(secrets.hash('abc')).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
  });

  it('knows the token of a session, and no other', () => {
    const token = secrets.csrfToken('one');
    expect(secrets.isCsrfToken('one', token)).toBe(true);
    expect(secrets.isCsrfToken('two', token)).toBe(false);
    expect(secrets.isCsrfToken('one', '')).toBe(false);
    expect(secrets.isCsrfToken('one', `${token}A`)).toBe(false);
  });
});
