import { describe, expect, it } from '@jest/globals';
import type { ReadClient, ReadSite } from '../parts/wire.js';
import { findSites } from './find-sites.js';

const client = (id: string, name: string, phone: string | null) =>
  ({ id, name, phone, contactName: 'Tamsin Roe' }) as ReadClient;
const site = (name: string, address: string | null, clientId: string) =>
  ({ id: name, name, address, clientId }) as ReadSite;

describe('findSites', () => {
  const clients = [client('1', 'Fenmoor Schools', '0555 0177'), client('2', 'Orrin Works', null)];
  const sites = [
    site('Larkfield Lower School', '4 Sluice Lane', '1'),
    site('Larkfield Upper School', null, '1'),
    site('Orrin Depot', '9 Sluice Lane', '2'),
  ];
  const found = (typed: string) => findSites(typed, sites, clients).map((one) => one.site.name);

  it('goes by any part of name, address, client or number, and by all words at once', () => {
    expect(found('sluice')).toEqual(['Larkfield Lower School', 'Orrin Depot']);
    expect(found('upper lark')).toEqual(['Larkfield Upper School']);
    expect(found('5550177')).toEqual(['Larkfield Lower School', 'Larkfield Upper School']);
    expect(found('works depot')).toEqual(['Orrin Depot']);
    expect(found('larkfield depot')).toEqual([]);
  });

  it('shows nothing before anything is typed, and not more than fit', () => {
    expect(found('  ')).toEqual([]);
    const many = Array.from({ length: 50 }, (_, i) => site(`School ${i}`, null, '1'));
    expect(findSites('school', many, clients)).toHaveLength(8);
  });
});
