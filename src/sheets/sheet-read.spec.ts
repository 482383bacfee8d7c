import { describe, expect, it } from '@jest/globals';
import { blankNode } from '../sites/as-built-fields.js';
import type { FieldError } from '../shared/domain-error.js';
import { type AsBuilt, type RecordNode, NOTHING_DRAWN } from '../sites/as-built.js';
import { drawSheet, readCsv, type SheetReading } from './sheet-read.js';
import { readTable, type SheetTable } from './sheet-table.js';

interface Options {
  locale?: string;
  leaveOutUnknownColumns?: boolean;
}

function readSheet(sheet: Uint8Array, current: AsBuilt, options: Options = {}): SheetReading {
  const table = tableOf(sheet, options);
  return 'header' in table ? drawSheet(table, current, options.locale) : table;
}

function tableOf(sheet: Uint8Array, options: Options): SheetTable | { errors: FieldError[] } {
  const csv = readCsv(sheet);
  return 'records' in csv ? readTable(csv, options) : csv;
}

const bytes = (text: string) => new TextEncoder().encode(text);

function read(sheet: string, current: AsBuilt = NOTHING_DRAWN, options: Options = {}) {
  const reading = readSheet(bytes(sheet), current, options);
  if ('errors' in reading) throw new Error(JSON.stringify(reading.errors));
  return reading;
}

function nodes(sheet: string, current?: AsBuilt, options?: Options): RecordNode[] {
  return read(sheet, current, options).asBuilt.trunks.flatMap((trunk) => trunk.nodes);
}

/** Each error as "line column=value: reason". */
function errors(sheet: string | Uint8Array, current: AsBuilt = NOTHING_DRAWN): string[] {
  const reading = readSheet(typeof sheet === 'string' ? bytes(sheet) : sheet, current);
  if (!('errors' in reading)) throw new Error('the sheet was taken');
  return reading.errors.map(
    ({ line, column, value, reason }) =>
      `${line ?? ''}${column === undefined ? '' : ` ${column}=${value ?? ''}`}: ${reason}`,
  );
}

/** Three nodes, A1 and A2 in a row and A3 fed from A1, that every form of the file must give. */
const MEANT = [
  ['A1', null, 18, 'Room 1'],
  ['A2', 'A1', 9.5, 'Room 2, the annex'],
  ['A3', 'A1', 1200, null],
];

const FORMS: [string, string][] = [
  [
    'plain',
    'trunk,node,fed from,cable metres,room\nA,A1,,18,Room 1\nA,A2,,9.5,"Room 2, the annex"\nA,A3,A1,1200,\n',
  ],
  [
    'BOM and CRLF',
    '\uFEFFtrunk,node,fed from,cable metres,room\r\nA,A1,,18,Room 1\r\nA,A2,,9.5,"Room 2, the annex"\r\nA,A3,A1,1200,\r\n',
  ],
  [
    'lone CR',
    'trunk,node,fed from,cable metres,room\rA,A1,,18,Room 1\rA,A2,,9.5,"Room 2, the annex"\rA,A3,A1,1200,',
  ],
  [
    'semicolons, decimal comma, quoted line break',
    'trunk;node;fed from;cable metres;room\nA;A1;;18,0;Room 1\nA;A2;;9,5;"Room 2,\r\nthe annex"\nA;A3;A1;1200;\n',
  ],
  [
    'tabs',
    'trunk\tnode\tfed from\tcable metres\troom\nA\tA1\t\t18\tRoom 1\nA\tA2\t\t9.5\tRoom 2, the annex\nA\tA3\tA1\t1200\t\n',
  ],
  [
    'columns in another order and writing',
    'ROOM;Fed_From;"Cable-Metres"; Node ;TRUNK\nRoom 1;;18;A1;A\nRoom 2, the annex;;9,5;A2;A\n;A1;1200;A3;A\n',
  ],
  [
    'a quoted decimal comma among commas',
    'trunk,node,fed from,cable metres,room\nA,A1,Head End,"18,0",Room 1\nA,A2,,"9,5","Room 2, the annex"\nA,A3,A1,1200,\n',
  ],
  [
    'blank and trailing lines, empty columns',
    '\n;;;;;;\ntrunk;node;fed from;cable metres;room;;\n\nA;A1;;18;Room 1;;\n;;;;;;\nA;A2;;9,5;Room 2, the annex;;\n \t \nA;A3;A1;1200;;;\n;;;;;;\n\n\n',
  ],
  [
    'rows cut short, spaces, a hint of the delimiter',
    'sep=;\r\ntrunk;node;fed from;cable metres;room\r\n A ; A1 ;; 18 m ; Room  1\r\nA;A2;;9.5m;"Room 2, the annex "\r\nA;A3;A1;1200\r\n',
  ],
  [
    'rows out of order',
    'order,trunk,node,fed from,cable metres,room\n30,A,A3,A1,1200,\n10,A,A1,,18,Room 1\n20,A,A2,,9.5,"Room 2, the annex"\n',
  ],
];

describe('readSheet', () => {
  it.each(FORMS)('reads it as people have it: %s', (_name, sheet) => {
    const read = nodes(sheet).map((node) => [node.node, node.fedFrom, node.cableMetres, node.room]);
    expect(read).toEqual(MEANT);
  });

  it('reads every column', () => {
    const sheet =
      'trunk;node;kind;fed from;cable type;cable metres;room;block;floor;unit model;unit serial;installed on;groups;IS OUT;lacks;length guessed\n' +
      'A;J1;Junction Box;;4 x 0,5;3;;North;0;;;;;;;\n' +
      "A;A1;;;4 x 0,5;4,25;Café;North;1;RS-2;'=7;2024-05-03;first floor, Staff;Yes;Talk back,bell;x\n";
    expect(nodes(sheet)).toEqual([
      {
        ...blankNode('J1', 3),
        kind: 'junction-box',
        cableType: '4 x 0,5',
        block: 'North',
        floor: '0',
      },
      {
        ...blankNode('A1'),
        fedFrom: 'J1',
        cableType: '4 x 0,5',
        cableMetres: 4.25,
        isLengthGuessed: true,
        room: 'Café',
        block: 'North',
        floor: '1',
        unitModel: 'RS-2',
        unitSerial: '=7',
        unitInstalledOn: '2024-05-03',
        groups: ['first floor', 'Staff'],
        isOut: true,
        lacks: ['bell', 'talkback'],
      },
    ]);
  });

  it('keeps what the sheet has no column for: head-end, trunk names, units', () => {
    const current: AsBuilt = {
      headEnd: { ...NOTHING_DRAWN.headEnd, model: 'HE-6' },
      trunks: [
        {
          trunk: 'A',
          name: 'North wing',
          port: '1',
          nodes: nodes('trunk,node,cable metres,unit serial\nA,A1,5,S-1\nA,A2,6,S-2\n'),
        },
      ],
    };
    const reading = readSheet(bytes('trunk,node,cable metres\nB,B1,4\nA,A1,7\nA,A9,8\n'), current);
    expect(reading).toMatchObject({
      asBuilt: {
        headEnd: { model: 'HE-6' },
        trunks: [
          {
            trunk: 'A',
            name: 'North wing',
            port: '1',
            nodes: [
              { node: 'A1', cableMetres: 7, unitSerial: 'S-1' },
              { node: 'A9', fedFrom: 'A1', unitSerial: null },
            ],
          },
          { trunk: 'B', name: '', port: null },
        ],
      },
    });
  });

  it('keeps a guess until another length is given, and guesses what is blank', () => {
    const guessed = nodes('trunk,node,cable metres\nA,A1,8\nA,A2,\nA,A3,?\n');
    const lengths = (drawn: RecordNode[]) =>
      drawn.map(({ cableMetres, isLengthGuessed }) => [cableMetres, isLengthGuessed]);
    expect(lengths(guessed)).toEqual([
      [8, false],
      [8, true],
      [8, true],
    ]);
    const current: AsBuilt = {
      ...NOTHING_DRAWN,
      trunks: [{ trunk: 'A', name: '', port: null, nodes: guessed }],
    };
    const later = nodes('trunk,node,cable metres\nA,A1,8\nA,A2,8\nA,A3,11\n', current);
    expect(lengths(later)).toEqual([
      [8, false],
      [8, true],
      [11, false],
    ]);
    expect(lengths(nodes('trunk,node\nA,A1\nA,A2\nA,A4\n', current))).toEqual([
      [8, false],
      [8, true],
      [8, true],
    ]);
  });

  it('reads over as many blank rows as a spreadsheet may write at the end', () => {
    const sheet = `${';;\r\n'.repeat(7)}trunk;node;cable metres\r\nA;A1;9,5\r\n;\r\nA;A2;-1\r\n`;
    expect(errors(`${sheet}${';;\r\n'.repeat(200_000)}`)).toEqual([
      '11 cable metres=-1: is a negative length',
    ]);
  });

  it('groups rows of mixed trunks; the row before is the one of the same trunk', () => {
    const read = nodes('trunk,node,cable metres\nA,A1,5\nB,B1,6\nA,A2,7\nB,B2,8\n');
    expect(read.map(({ node, fedFrom }) => [node, fedFrom])).toEqual([
      ['A1', null],
      ['A2', 'A1'],
      ['B1', null],
      ['B2', 'B1'],
    ]);
  });

  it('tells everything at once, each by line, column and value', () => {
    const sheet =
      'Trunk;Node;Kind;Fed_from;Cable metres;Room;Unit serial;Installed on;Colour;Unit modell\n' +
      'A;A1;;;18;"Room\n1";;;;\n' + // lines 2 and 3
      'A;A2;;Z9;;Room 2;;;;\n' +
      'A;A3;socket;;-4;Room 3;;;;\n' +
      ';A4;;A1;12 ft;Room 4;;;;\n' +
      '\n' +
      'A;A5;;A6;1.200;Room 5;;3.13.2024;;\n' +
      'A;A6;;A5;0;Room 6;;;;\n' +
      'A;J1;junction box;A1;2001;Room 7;S-1;;;\n' +
      'A;A1;;A3;3;Room 1;;;;\n' +
      'B;J2;junction-box;;3;;;;;\n' +
      'A;A7;;A1;3;Room 8;;;;;;too much\n';
    expect(errors(sheet)).toEqual([
      '1 Colour=: there is no such column in an as-built sheet',
      '1 Unit modell=: there is no such column in an as-built sheet; is "unit model" meant?',
      '4 Fed_from=Z9: there is no node Z9 on this trunk',
      '5 Kind=socket: must be station or junction-box',
      '5 Cable metres=-4: is a negative length',
      '6 Cable metres=12 ft: is not a length in metres',
      '8 Cable metres=1.200: could be thousands or thousandths; write 1200 or 1.2',
      '8 Installed on=3.13.2024: is no day of the calendar as this sheet writes them',
      '8 Fed_from=A6: is fed in a circle: A5 ← A6 ← A5',
      '9 Cable metres=0: is no length: even two boxes back to back have some cable',
      '10 Cable metres=2001: is more than the 2000 m that one span can be',
      '10 Room=Room 7: a junction box has no room and no unit',
      '10 Unit serial=S-1: a junction box has no room and no unit',
      '11 Fed_from=A3: A1 is fed by two: from the head-end (line 2) and from A3 here',
      '12 Trunk=B: a trunk has at least one station',
      '13: has 12 values for 10 columns',
    ]);
  });

  it.each<[string, string | Uint8Array, string[]]>([
    ['nothing', '', ['1: the sheet is empty']],
    ['blank lines only', '\n;;;\n\n', ['1: the sheet is empty']],
    ['a header only', '\ntrunk,node,cable metres\n\n', ['2: no rows follow']],
    [
      'a missing, a misspelt and a repeated column',
      'trunk;Trunk;cable meters\nA;A;1\n',
      [
        '1 cable meters=: there is no such column in an as-built sheet; is "cable metres" meant?',
        '1 Trunk=: this column is there twice',
        '1 node=: this column is missing',
      ],
    ],
    [
      'a decimal comma that is not quoted among commas',
      'trunk,node,cable metres,room\nA,A1,9,5,Room 1\nA,A2,9,5\nA,A3,9,25\nA,A4,4,Room 4,x\n',
      [
        '2: has 5 values for 4 columns, perhaps because of a decimal comma: write "9,5" in quotes, or 9.5',
        '5: has 5 values for 4 columns',
      ],
    ],
    [
      'a short row whose room may be decimals',
      'trunk,node,cable metres,room,floor\nA,A1,9,5\nA,A2,4,101\n',
      [
        '2: has 4 values for 5 columns, perhaps because of a decimal comma: write "9,5" in quotes, or 9.5',
      ],
    ],
    [
      'a value in a column without a name',
      'trunk;node;cable metres;;\nA;A1;9;;\nA;A2;9;;see note\n',
      ['3: has a value in a column that has no name'],
    ],
    [
      'a quote left open',
      'trunk,node,cable metres\nA,A1,5\nA,"A2,6\nA,A3,7\n',
      ['3: a quote is opened here that nothing closes'],
    ],
    [
      'a quote in the middle',
      'trunk,node,cable metres,room\nA,A1,5,\r\nA,A2,6,"big" room\r\n',
      ['3: a quote ends in the middle of a value; double a quote that belongs to it'],
    ],
    [
      'orders',
      'trunk,order,node,cable metres\nA,1,A1,5\nA,1,A2,5\nA,,A3,5\nA,1.5,A4,5\nB,,B1,5\n',
      [
        '3 order=1: line 2 has the same order on this trunk',
        '4 order=: give the order of every row of a trunk, or of none',
        '5 order=1.5: is not a whole number',
      ],
    ],
    [
      'Windows-1252',
      Uint8Array.from([
        ...bytes('trunk,node,cable metres,room\r\nA,A1,5,Caf'),
        0xe9,
        ...bytes('\r\nA,A2,5,ok é\rA,A3,5,K'),
        0xfc,
        ...bytes('che\n'),
      ]),
      [2, 4].map(
        (line) =>
          `${line}: is not UTF-8 (an older spreadsheet’s Windows-1252?); save it as CSV in UTF-8`,
      ),
    ],
    [
      'a header without end',
      `trunk,node${',x'.repeat(99)}\n`,
      ['1: has 101 columns; a sheet has at most 100'],
    ],
    [
      'UTF-16',
      Uint8Array.from([0xff, 0xfe, 0x74, 0]),
      ['1: the file is UTF-16; save it as CSV in UTF-8'],
    ],
    [
      'a NUL',
      'trunk,node\nA,\u0000',
      ['2: there is a NUL in it: this is no text in UTF-8; save it as CSV in UTF-8'],
    ],
    [
      'more rows than a site has',
      `trunk,node,cable metres\n${'A,A1,5\n\n'.repeat(5001)}`,
      ['10002: the sheet has more than 5000 rows'],
    ],
  ])('refuses %s', (_name, sheet, expected) => {
    expect(errors(sheet)).toEqual(expected);
  });

  it('reads sheets as people draw them: titles, merged cells, totals, branches, tees', () => {
    const sheet =
      'Vessleby Lower School;;;;;;\n' +
      'as built 3 May 2024, drawn by I. Marsh;;;;;;\n' +
      '\n' +
      'Trunk;Floor;Node;Room;Kind;Cable metres;Fed from\n' +
      'A;ground;A1;Office;;18;\n' +
      ';;A2;Room 2;;9,5;\n' +
      ';first;A3;Room 3;Room unit;7;\n' +
      ';;A4;;Tee;4,5;\n' +
      ';;A5;Room 5;;6;\n' +
      ';;;Total;;45;\n' +
      ';;fed from A4;;;;\n' +
      ';-;B1;Shed;;30;\n' +
      ';;B2;Barn;;12;\n' +
      ';;;;;42;\n' +
      'Trunk;Floor;Node;Room;Kind;Cable metres;Fed from\n' +
      'B;ground;C1;Hall;;8;\n' +
      ';;C2;Stage;;3;\n' +
      'Sum of all: 98;;;;;\n';
    const { asBuilt, notes } = read(sheet);
    expect(
      asBuilt.trunks.map(({ trunk, nodes: drawn }) => [
        trunk,
        ...drawn.map((each) => `${each.fedFrom}>${each.node} ${each.kind} ${each.floor}`),
      ]),
    ).toEqual([
      [
        'A',
        'null>A1 station ground',
        'A1>A2 station ground',
        'A2>A3 station first',
        'A3>A4 junction-box first',
        'A4>A5 station first',
        'A4>B1 station null',
        'B1>B2 station null',
      ],
      ['B', 'null>C1 station ground', 'C1>C2 station ground'],
    ]);
    expect(notes).toEqual([
      { line: 1, note: 'a title; left out' },
      { line: 2, note: 'a title; left out' },
      { line: 10, note: 'a total; left out' },
      { line: 11, note: 'the next row is fed from A4' },
      { line: 14, note: 'a total; left out' },
      { line: 15, note: 'the names of the columns again; left out' },
      { line: 18, note: 'a total; left out' },
    ]);
  });

  it('leaves no row out that could be a room', () => {
    expect(errors('trunk,node,room,cable metres\nA,A1,Room 1,9\n,,Total quality room,9\n')).toEqual(
      ['3 node=: is missing'],
    );
    expect(errors('trunk,node,room,cable metres\nA,A1,Room 1,9\nA,,,8\n')).toEqual([
      '3 node=: is missing',
    ]);
    expect(nodes('trunk,node,room,cable metres\nA,Total,Total,9\nA,A2,Total,9\n')).toHaveLength(1);
    expect(nodes('trunk,node,room,cable metres\nA,A1,from Hall,9\nA,A2,Total,9\n')).toHaveLength(2);
  });

  it('puts a branch that is a line of its own on its trunk, also a branch of a branch', () => {
    const sheet =
      'trunk,node,fed from,cable metres\nA,A1,,5\nA,A2,,5\nA-1,B1,A1,5\nA-1,B2,,5\nA-2,C1,B2,5\nA,A3,,5\n';
    const { asBuilt, notes } = read(sheet);
    expect(asBuilt.trunks).toHaveLength(1);
    expect(asBuilt.trunks[0]!.nodes.map(({ node, fedFrom }) => [node, fedFrom])).toEqual([
      ['A1', null],
      ['A2', 'A1'],
      ['A3', 'A2'],
      ['B1', 'A1'],
      ['B2', 'B1'],
      ['C1', 'B2'],
    ]);
    expect(notes).toEqual([
      { line: 4, note: 'A-1 is a branch, fed from A1: its nodes are on trunk A' },
      { line: 6, note: 'A-2 is a branch, fed from B2: its nodes are on trunk A' },
    ]);
    // What the record knows as a trunk of its own does not become a branch by a slip of the pen.
    const known = read('trunk,node,cable metres\nA,A1,5\nB,B1,5\n').asBuilt;
    expect(errors('trunk,node,fed from,cable metres\nA,A1,,5\nB,B1,A1,5\n', known)).toEqual([
      '3 fed from=A1: A1 is on trunk A; a node is fed within its own trunk',
    ]);
    // Lines that feed each other are nobody's branch.
    expect(errors('trunk,node,fed from,cable metres\nA,A1,B1,5\nB,B1,A1,5\n')).toHaveLength(2);
  });

  it('leaves unknown columns out when asked, and tells of them', () => {
    const sheet = 'trunk,node,Colour,cable metres,Remarks\nA,A1,red,9,see below\n';
    expect(errors(sheet)).toHaveLength(2);
    const { asBuilt, notes } = read(sheet, NOTHING_DRAWN, { leaveOutUnknownColumns: true });
    expect(asBuilt.trunks[0]!.nodes).toMatchObject([{ node: 'A1', cableMetres: 9 }]);
    expect(notes).toEqual(
      ['Colour', 'Remarks'].map((column) => ({
        line: 1,
        column,
        note: 'there is no such column in an as-built sheet; left out',
      })),
    );
  });

  it('reads days and numbers by the locale that is named, else by what the sheet shows', () => {
    const sheet = 'trunk;node;cable metres;installed on\nA;A1;1.200;3/5/2024\nA;A2;9,25;4/5/2024\n';
    const told = (options: Options) =>
      nodes(sheet, NOTHING_DRAWN, options).map((each) => [each.cableMetres, each.unitInstalledOn]);
    expect(told({ locale: 'de' })).toEqual([
      [1200, '2024-05-03'],
      [9.25, '2024-05-04'],
    ]);
    expect(told({ locale: 'en-US' })).toEqual([
      [1.2, '2024-03-05'],
      [9.25, '2024-04-05'],
    ]);
    expect(errors(sheet)).toEqual([
      '2 cable metres=1.200: could be thousands or thousandths; write 1200 or 1.2',
      ...['2 installed on=3/5/2024', '3 installed on=4/5/2024'].map(
        (at) =>
          `${at}: could be two days; write it as year-month-day, or name the locale of the sheet`,
      ),
    ]);
  });
});
