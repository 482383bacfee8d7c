import { describe, expect, it } from '@jest/globals';

import { parsePostmasterFile } from './built-in-postmaster.js';

describe('parsePostmasterFile', () => {
  it('reads process and port of a running server', () => {
    const text = '4711\n/data/server/data\n1764074639\n41605\n\n127.0.0.1\n  9 32\nready   \n';
    expect(parsePostmasterFile(text)).toEqual({ pid: 4711, port: 41605 });
  });

  it('has no port yet while the file is being written', () => {
    expect(parsePostmasterFile('4711\n')).toEqual({ pid: 4711, port: undefined });
    expect(parsePostmasterFile('4711\n/data\n1764074639\n')).toMatchObject({ port: undefined });
  });

  it('is undefined for what no server wrote', () => {
    for (const text of ['', '\0\0\0\0', 'hello\n', '0\n', '-5\n', '1.5\n']) {
      expect(parsePostmasterFile(text)).toBeUndefined();
    }
  });
});
