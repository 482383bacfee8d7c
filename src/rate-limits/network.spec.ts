import { describe, expect, it } from '@jest/globals';
import { networkOf } from './network.js';

describe('networkOf', () => {
  it('keeps an IPv4 address, also one that is written as IPv6', () => {
    expect(networkOf('192.0.2.7')).toBe('192.0.2.7');
    expect(networkOf('::ffff:192.0.2.7')).toBe('192.0.2.7');
    expect(networkOf('::FFFF:192.0.2.7')).toBe('192.0.2.7');
    expect(networkOf('::ffff:c000:207')).toBe('192.0.2.7');
    expect(networkOf('0:0:0:0:0:ffff:192.0.2.7')).toBe('192.0.2.7');
    expect(networkOf('::ffff:c000:208')).toBe('192.0.2.8');
  });

  it('keeps the first 64 bits of an IPv6 address, however it is written', () => {
    const same = [
      '2001:db8:7:1:a:b:c:d',
      '2001:0DB8:0007:0001::1',
      '2001:db8:7:1::',
      '2001:db8:7:1:0:0:192.0.2.7',
      '2001:db8:7:1::5%eth0',
    ];
    expect(new Set(same.map(networkOf))).toEqual(new Set(['2001:db8:7:1::/64']));
    expect(networkOf('2001:db8:7:2::1')).toBe('2001:db8:7:2::/64');
    expect(networkOf('2001:db8::1')).toBe('2001:db8:0:0::/64');
    expect(networkOf('::1')).toBe('0:0:0:0::/64');
    expect(networkOf('fe80::1')).toBe('fe80:0:0:0::/64');
  });

  it('leaves out the port that some proxies add, which each connection has anew', () => {
    expect(networkOf('192.0.2.7:50123')).toBe('192.0.2.7');
    expect(networkOf('[2001:db8:7:1::5]:50123')).toBe('2001:db8:7:1::/64');
    expect(networkOf('[::ffff:192.0.2.7]:50123')).toBe('192.0.2.7');
  });

  it('takes all that is no address for one', () => {
    const wrong = ['', 'somebody', 'somebody else', '192.0.2', '300.1.1.1', '1:2', '[1', 'unknown'];
    expect(new Set(wrong.map(networkOf))).toEqual(new Set(['']));
  });
});
