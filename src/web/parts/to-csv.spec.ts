import { describe, expect, it } from '@jest/globals';
import { toCsv } from './to-csv.js';

describe('toCsv', () => {
  it('quotes what needs it, and lets no text be reckoned', () => {
    const rows = [
      ['Lark, "upper"', -12.5, null],
      ['=1+1', 0, '-3 min'],
    ];
    expect(toCsv(['Site', 'Minutes', 'Remark'], rows)).toBe(
      '\uFEFFSite,Minutes,Remark\r\n"Lark, ""upper""",-12.5,\r\n\'=1+1,0,\'-3 min\r\n',
    );
  });
});
