import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { type AsBuilt, type RecordNode, NOTHING_DRAWN } from '../sites/as-built.js';
import { checkAsBuilt } from '../sites/as-built-check.js';
import { compareAsBuilt, isSame } from '../sites/as-built-compare.js';
import { blankNode, NODE_FIELDS, tidyText } from '../sites/as-built-fields.js';
import { drawSheet, readCsv } from './sheet-read.js';
import { readTable } from './sheet-table.js';
import { writeSheet } from './sheet-write.js';

const text = fc.option(
  fc
    .oneof(
      fc.string({ maxLength: 20, unit: 'grapheme' }),
      fc.string({ maxLength: 12, unit: fc.constantFrom(...'=+-@\',;"\t\n\r 9.mé') }),
    )
    .map(tidyText)
    .filter((each) => each === null || (each.length <= 100 && !/\p{Cc}/u.test(each))),
);

const day = fc
  .integer({ min: 0, max: 50_000 })
  .map((days) => new Date(days * 86_400_000).toISOString().slice(0, 10));

const node = fc.record({
  kind: fc.constant('station' as const),
  feed: fc.nat(),
  cableType: text,
  cableMetres: fc.integer({ min: 1, max: 200_000 }).map((centimetres) => centimetres / 100),
  room: text,
  block: text,
  floor: text,
  unitModel: text,
  unitSerial: text,
  unitInstalledOn: fc.option(day),
  isLengthGuessed: fc.boolean(),
  groups: fc.uniqueArray(fc.constantFrom('ground floor', '=staff', '@hall', 'West'), {
    maxLength: 3,
  }),
  isOut: fc.boolean(),
  lacks: fc.subarray(['bell', 'music', 'talkback'] as const).map((all) => [...all]),
});

/** A tree of stations and boxes whose nodes stand in any order, fed from any that is not below them. */
const trunkNodes = fc.array(node, { minLength: 1, maxLength: 12 }).chain((parts) => {
  const nodes = parts.map(({ feed, ...part }, index): RecordNode => {
    const fedFrom = feed % (index + 1) === 0 ? null : `N ${feed % (index + 1)}`;
    const box = index > 0 && feed % 3 === 0;
    const code = `N ${index + 1}`;
    if (!box) return { ...blankNode(code), ...part, fedFrom };
    const { cableType, cableMetres, block, floor, isLengthGuessed } = part;
    const ofBoxes = { cableType, cableMetres, block, floor, isLengthGuessed };
    return { ...blankNode(code), kind: 'junction-box', ...ofBoxes, fedFrom };
  });
  return fc.shuffledSubarray(nodes, { minLength: nodes.length });
});

const drawing: fc.Arbitrary<AsBuilt> = fc
  .array(trunkNodes, { minLength: 1, maxLength: 3 })
  .map((trunks) => ({
    headEnd: { ...NOTHING_DRAWN.headEnd, model: 'HE', supplyVolts: 24 },
    trunks: trunks.map((nodes, index) => ({
      trunk: `T${index + 9}`,
      name: 'wing',
      port: null,
      nodes,
    })),
  }));

describe('writeSheet', () => {
  it('writes every feed and order, guards formulas, and is taken for UTF-8 by a spreadsheet', () => {
    const checked = checkAsBuilt(
      {
        headEnd: {},
        trunks: [
          {
            trunk: 'A',
            nodes: [
              { node: 'A1', cableMetres: 18, room: '=HYPERLINK("x")', unitModel: "'quoted" },
              {
                node: 'A2',
                cableMetres: 9.5,
                room: "'=kept",
                unitInstalledOn: '2024-05-03',
                groups: ['=1', 'West'],
                isOut: true,
                lacks: ['bell', 'music'],
              },
            ],
          },
        ],
      },
      () => '',
    );
    if (!('asBuilt' in checked)) throw new Error('not a drawing');
    const sheet = writeSheet(checked.asBuilt);
    const columns = ['trunk', 'order', ...Object.values(NODE_FIELDS).map(({ column }) => column)];
    expect(sheet.split('\r\n')).toEqual([
      `\uFEFF${columns.join(',')}`,
      // A further text of nodes is some commas more.
      expect.stringMatching(/^A,1,A1,station,head-end,,18,,"'=HYPERLINK\(""x""\)",,,'quoted,{5,}$/),
      expect.stringMatching(
        /^A,2,A2,station,A1,,9\.5,,''=kept,{5,}2024-05-03,"'=1, West",yes,"bell, music",*$/,
      ),
      '',
    ]);
  });

  it('reads back as the same record, whatever is in it', () => {
    let formulas = 0;
    fc.assert(
      fc.property(drawing, (before) => {
        if (
          before.trunks.some(({ nodes }) => nodes.some(({ room }) => /^'*[=+\-@]/.test(room ?? '')))
        )
          formulas++;
        const csv = readCsv(new TextEncoder().encode(writeSheet(before)));
        if (!('records' in csv)) throw new Error(JSON.stringify(csv.errors));
        const table = readTable(csv);
        const reading = 'header' in table ? drawSheet(table, before) : table;
        if ('errors' in reading) throw new Error(JSON.stringify(reading.errors));
        expect(reading.asBuilt).toEqual(before);
        expect(isSame(compareAsBuilt(before, reading.asBuilt))).toBe(true);
      }),
      { seed: 20_240_503, numRuns: 50 },
    );
    expect(formulas).toBeGreaterThan(10);
  });
});
