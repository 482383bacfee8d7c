import { randomBytes } from 'node:crypto';

import { describe, expect, it } from '@jest/globals';

import { AccessSettings, DEFAULT_LIMITS } from './access-settings.js';
import { SealService } from './seal.service.js';

const SEED = 'JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP';

function sealWith(key: Buffer): SealService {
  return new SealService(new AccessSettings('http://localhost', DEFAULT_LIMITS, key));
}

describe('what is sealed', () => {
  const service = sealWith(randomBytes(32));

  it('opens for whom it was sealed, is not readable, and differs each time', () => {
    const sealed = service.seal(SEED, 'somebody');
    expect(service.open(sealed, 'somebody')).toBe(SEED);
    expect(sealed).not.toContain(SEED);
    expect(Buffer.from(sealed, 'base64url').toString('latin1')).not.toContain(SEED);
    expect(service.seal(SEED, 'somebody')).not.toBe(sealed);
  });

  it('does not open for somebody else, with another key, or changed by a bit', () => {
    const sealed = service.seal(SEED, 'somebody');
    expect(() => service.open(sealed, 'somebody else')).toThrow();
    expect(() => sealWith(randomBytes(32)).open(sealed, 'somebody')).toThrow();
    const bytes = Buffer.from(sealed, 'base64url');
    for (const index of bytes.keys()) {
      const changed = Buffer.from(bytes);
      changed[index]! ^= 1;
      expect(() => service.open(changed.toString('base64url'), 'somebody')).toThrow();
    }
    expect(() => service.open(sealed.slice(0, 20), 'somebody')).toThrow();
  });
});
