import { describe, expect, it } from '@jest/globals';
import { posePrices, pricesDraft, withPart } from './prices-draft.js';

const READ = {
  currency: 'EUR',
  hourMinor: 5200,
  travelHourMinor: 4050,
  parts: [{ name: 'Wire ferrule', minor: 25 }],
  version: 3,
};

describe('prices as they are typed', () => {
  it('are in the unit of their currency, and say nothing where nobody said anything', () => {
    expect(pricesDraft(READ)).toEqual({
      currency: 'EUR',
      hour: '52',
      travelHour: '40.5',
      parts: { 'wire ferrule': { name: 'Wire ferrule', price: '0.25' } },
    });
    const none = { ...READ, hourMinor: 0, travelHourMinor: 0, parts: [], version: 0 };
    expect(pricesDraft(none)).toMatchObject({ hour: '', travelHour: '', parts: {} });
  });

  it('are sent as they were read, without what was taken off or has nothing on it', () => {
    const { version: _version, ...sent } = READ;
    const draft = pricesDraft(READ);
    expect(posePrices(draft, 'no')).toEqual({ body: sent, errors: [] });
    const parts = withPart(withPart({ ...draft.parts, 'wire ferrule': undefined }));
    expect(Object.keys(parts)).toEqual(['wire ferrule', 'new 1', 'new 2']);
    const more = { ...draft, parts: { ...parts, 'new 2': { name: ' Fuse ', price: '1,5' } } };
    expect(posePrices(more, 'no').body.parts).toEqual([{ name: 'Fuse', minor: 150 }]);
  });

  it('are in units of which some currencies have no parts', () => {
    const draft = { ...pricesDraft(READ), currency: ' jpy ' };
    expect(posePrices(draft, 'no').body).toMatchObject({ currency: 'JPY', hourMinor: 52 });
  });

  it('name each amount that is none', () => {
    const parts = { a: { name: 'Fuse', price: 'one' } };
    const { errors } = posePrices({ currency: 'EUR', hour: '', travelHour: '4', parts }, 'no');
    expect(errors.map(({ field }) => field)).toEqual(['/hourMinor', '/parts/0/minor']);
  });
});
