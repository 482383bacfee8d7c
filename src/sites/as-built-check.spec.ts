import { describe, expect, it } from '@jest/globals';
import { blankNode } from './as-built-fields.js';
import { MOST_NODES } from './as-built.js';
import { checkAsBuilt } from './as-built-check.js';
import { toPointer } from './read-fields.js';

type Nodes = object[];

const station = (node: string, more: object = {}) => ({ node, cableMetres: 10, ...more });

function check(nodes: Nodes, more: object = {}) {
  return checkAsBuilt(
    { headEnd: {}, trunks: [{ trunk: 'A', nodes }], ...more },
    (trunk, node) => `row ${trunk}/${node}`,
  );
}

function complaints(nodes: Nodes, more: object = {}): string[] {
  return check(nodes, more).complaints.map(({ path, reason }) => `${toPointer(path)}: ${reason}`);
}

const at = (node: number, field: string) => `/trunks/0/nodes/${node}/${field}`;

describe('checkAsBuilt', () => {
  it('reads a drawing: what is left out is blank, and feeds default to the node before', () => {
    const checked = check([
      station(' A1 ', { room: 'Room\n 1' }),
      station('J1', { kind: 'junction-box' }),
      station('A2', { fedFrom: null }),
      station('A3', { fedFrom: 'J1' }),
    ]);
    if (!('asBuilt' in checked)) throw new Error(JSON.stringify(checked.complaints));
    const [trunk] = checked.asBuilt.trunks;
    expect(trunk).toMatchObject({ trunk: 'A', name: '', port: null });
    expect(trunk!.nodes.map(({ node, kind, fedFrom }) => [node, kind, fedFrom])).toEqual([
      ['A1', 'station', null],
      ['J1', 'junction-box', 'A1'],
      ['A2', 'station', null],
      ['A3', 'station', 'J1'],
    ]);
    expect(trunk!.nodes[0]).toEqual({ ...blankNode('A1'), room: 'Room 1' });
  });

  it('keeps groups, units that are out and what a unit lacks', () => {
    const checked = check([
      station('A1', { groups: [' ground  floor', 'Staff'], isOut: true }),
      station('A2', { lacks: ['talkback', 'lamp'] }),
    ]);
    if (!('asBuilt' in checked)) throw new Error(JSON.stringify(checked.complaints));
    expect(checked.asBuilt.trunks[0]!.nodes).toMatchObject([
      { groups: ['ground floor', 'Staff'], isOut: true, lacks: [] },
      { groups: [], isOut: false, lacks: ['lamp', 'talkback'] },
    ]);
  });

  it('takes the middle of what was measured for a length that nobody knows, and marks it', () => {
    const lengthsOf = (trunks: (number | null | undefined)[][]) => {
      const checked = check([], {
        trunks: trunks.map((metres, t) => ({
          trunk: `T${t}`,
          nodes: metres.map((cableMetres, n) => station(`N${n}`, { cableMetres })),
        })),
      });
      if (!('asBuilt' in checked)) throw new Error(JSON.stringify(checked.complaints));
      return checked.asBuilt.trunks.map(({ nodes }) =>
        nodes.map((node) => `${node.cableMetres}${node.isLengthGuessed ? '?' : ''}`),
      );
    };
    expect(lengthsOf([[9, null, 40, 7, undefined], [null]])).toEqual([
      ['9', '9?', '40', '7', '9?'],
      ['9?'],
    ]);
    expect(lengthsOf([[null, null]])).toEqual([['10?', '10?']]);
    // Somebody's own guess stays, and says nothing about the others.
    const own = check([
      station('A1', { cableMetres: 300, isLengthGuessed: true }),
      station('A2', { cableMetres: null }),
      station('A3', { cableMetres: 4, isLengthGuessed: false }),
    ]);
    expect(own).toMatchObject({
      asBuilt: {
        trunks: [
          {
            nodes: [
              { cableMetres: 300, isLengthGuessed: true },
              { cableMetres: 4, isLengthGuessed: true },
              { cableMetres: 4, isLengthGuessed: false },
            ],
          },
        ],
      },
    });
  });

  it.each<[string, Nodes, string[]]>([
    [
      'a node twice',
      [station('A1'), station('A1', { fedFrom: null })],
      [`${at(1, 'node')}: A1 is there already (row 0/0)`],
    ],
    [
      'a station fed by two',
      [station('A1'), station('A2'), station('A3'), station('A3', { fedFrom: 'A1' })],
      [`${at(3, 'fedFrom')}: A3 is fed by two: from A2 (row 0/2) and from A1 here`],
    ],
    [
      'a repeated row that says no feed',
      [station('A1'), station('A2'), station('A3'), station('A2')],
      [`${at(3, 'node')}: A2 is there already (row 0/1)`],
    ],
    [
      'fed from what is not there',
      [station('A1'), station('A2', { fedFrom: 'a1' }), station('A3', { fedFrom: 'Z9' })],
      [
        `${at(1, 'fedFrom')}: there is no node a1 on this trunk; is A1 meant?`,
        `${at(2, 'fedFrom')}: there is no node Z9 on this trunk`,
      ],
    ],
    [
      'fed from itself',
      [station('A1', { fedFrom: 'A1' })],
      [`${at(0, 'fedFrom')}: a node cannot be fed from itself`],
    ],
    [
      'two circles, one with a tail',
      [
        station('A1'),
        station('A2', { fedFrom: 'A4' }),
        station('A3'),
        station('A4'),
        station('A5'),
        station('B1', { fedFrom: 'B2' }),
        station('B2', { fedFrom: 'B1' }),
      ],
      [
        `${at(1, 'fedFrom')}: is fed in a circle: A2 ← A4 ← A3 ← A2`,
        `${at(5, 'fedFrom')}: is fed in a circle: B1 ← B2 ← B1`,
      ],
    ],
    [
      'a circle that is entered in its middle',
      [
        station('A1', { fedFrom: 'A4' }),
        station('A2', { fedFrom: 'A4' }),
        station('A3', { fedFrom: 'A2' }),
        station('A4', { fedFrom: 'A3' }),
      ],
      [`${at(1, 'fedFrom')}: is fed in a circle: A2 ← A4 ← A3 ← A2`],
    ],
    [
      'lengths that cannot be',
      [0, -1, 2001, 1e9, '9', Number.NaN, 9.123].map((cableMetres, i) => ({
        node: `A${i}`,
        cableMetres,
      })),
      [
        'is no length: even two boxes back to back have some cable',
        'is a negative length',
        'is more than the 2000 m that one span can be',
        'is more than the 2000 m that one span can be',
        'is not a length in metres',
        'is not a length in metres',
        'is finer than whole centimetres',
      ].map((reason, i) => `${at(i, 'cableMetres')}: ${reason}`),
    ],
    [
      'a junction box with a room and a unit',
      [
        station('A1'),
        station('J', {
          kind: 'junction-box',
          room: '4',
          unitModel: 'RS',
          unitSerial: '1',
          unitInstalledOn: '2024-05-03',
          groups: ['staff'],
          isOut: true,
          lacks: ['bell'],
        }),
      ],
      ['room', 'unitModel', 'unitSerial', 'unitInstalledOn', 'groups', 'isOut', 'lacks'].map(
        (field) => `${at(1, field)}: a junction box has no room and no unit`,
      ),
    ],
    [
      'groups, what is out and what lacks',
      [
        station('A1', { groups: 'staff', isOut: 'yes', lacks: 'bell', isLengthGuessed: 1 }),
        station('A2', { groups: ['Staff', ' staff'], lacks: ['bell', 'chime'] }),
        station('A3', { groups: ['a, b'], lacks: ['bell', 'bell'] }),
        station('A4', { groups: ['x'.repeat(101)] }),
        station('A5', { groups: [' '] }),
        station('A6', { groups: [7] }),
        station('A7', {
          groups: Array.from({ length: 200 }, (_, i) => `G${i}`),
          lacks: new Array(90_000).fill('bell'),
        }),
      ],
      [
        `${at(0, 'isLengthGuessed')}: must be yes or no`,
        `${at(0, 'groups')}: must be a list of names`,
        `${at(0, 'isOut')}: must be yes or no`,
        `${at(0, 'lacks')}: must be a list of functions`,
        `${at(1, 'groups')}: has staff twice`,
        `${at(1, 'lacks')}: holds what is no function; there are lamp, announcement, bell, music, room-call, talkback`,
        `${at(2, 'groups')}: holds a name with a comma or semicolon in it`,
        `${at(2, 'lacks')}: has a function twice`,
        `${at(3, 'groups')}: holds a name that is longer than 100 characters`,
        `${at(4, 'groups')}: holds a name that is missing`,
        `${at(5, 'groups')}: holds a name that must be a text`,
        `${at(6, 'groups')}: has more than 20 names`,
        `${at(6, 'lacks')}: has a function twice`,
      ],
    ],
    [
      'no stations',
      [station('J', { kind: 'junction-box' })],
      ['/trunks/0/nodes: a trunk has at least one station'],
    ],
    [
      'codes',
      [
        station(''),
        station('A/1'),
        station('=A1'),
        station('x'.repeat(21)),
        station('Head End'),
        station('Küche 1.b_c-d'),
      ],
      [
        `${at(0, 'node')}: is missing`,
        ...[1, 2].map(
          (i) =>
            `${at(i, 'node')}: may hold only letters, digits, spaces, dots, hyphens and underscores, and starts with a letter or digit`,
        ),
        `${at(3, 'node')}: is longer than 20 characters`,
        `${at(4, 'node')}: is the word for the head-end, not a code`,
      ],
    ],
    [
      'dates, kinds, texts, unknown fields',
      [
        station('A1', { unitInstalledOn: '03/05/2024' }),
        station('A2', { unitInstalledOn: '2023-02-29' }),
        station('A3', { kind: 'tee' }),
        station('A4', { room: 12 }),
        station('A5', { room: 'a\u0000b' }),
        station('A6', { toString: 1 }),
        'A7',
      ] as Nodes,
      [
        `${at(0, 'unitInstalledOn')}: is not a date written as year-month-day, such as 2024-05-03`,
        `${at(1, 'unitInstalledOn')}: is not a date written as year-month-day, such as 2024-05-03`,
        `${at(2, 'kind')}: must be station or junction-box`,
        `${at(3, 'room')}: must be a text`,
        `${at(4, 'room')}: has a control character in it`,
        `${at(5, 'toString')}: is not a field here`,
        '/trunks/0/nodes/6: must be an object',
        `${at(6, 'node')}: is missing`,
      ],
    ],
  ])('says what is wrong: %s', (_name, nodes, expected) => {
    expect(complaints(nodes)).toEqual(expected);
  });

  it('says all of it at once, also what is wrong outside of the nodes', () => {
    expect(
      complaints([], {
        headEnd: {
          supplyVolts: 0,
          supplyOhms: -1,
          stationAmps: 101,
          coreOhmsPerKm: 0,
          colour: 'red',
          installedOn: 'May',
        },
        trunks: [
          { trunk: 'A', nodes: [station('A1')] },
          { trunk: 'A', nodes: [station('A9', { fedFrom: 'B1' })] },
          { trunk: 'B', nodes: [station('B1')] },
        ],
      }),
    ).toEqual([
      '/headEnd/installedOn: is not a date written as year-month-day, such as 2024-05-03',
      '/headEnd/supplyVolts: must be a number of volts, more than 0 and at most 1000',
      '/headEnd/supplyOhms: must be a number of ohms from 0 to 1000',
      '/headEnd/stationAmps: must be a number of amps from 0 to 100',
      '/headEnd/coreOhmsPerKm: must be a number of ohms per km from 0.01 to 10000',
      '/headEnd/colour: is not a field here',
      '/trunks/1/trunk: trunk A is there already',
      '/trunks/1/nodes/0/fedFrom: B1 is on trunk B; a node is fed within its own trunk',
    ]);
    expect(complaints([], { headEnd: undefined, trunks: 3 })).toEqual([
      '/headEnd: is missing',
      '/trunks: must be a list',
    ]);
  });

  it('takes as many nodes as a site may have, and no more', () => {
    const nodes = Array.from({ length: MOST_NODES }, (_, i) => station(`N${i}`));
    expect(complaints(nodes)).toEqual([]);
    expect(complaints([...nodes, station('N')])).toEqual([
      `/trunks: ${MOST_NODES + 1} nodes are more than the ${MOST_NODES} of a site`,
    ]);
  });

  it('finds a circle through all nodes of the largest site in one pass', () => {
    const nodes = Array.from({ length: MOST_NODES }, (_, i) => station(`N${i}`));
    nodes[0] = station('N0', { fedFrom: `N${MOST_NODES - 1}` });
    expect(complaints(nodes)).toEqual([
      `${at(0, 'fedFrom')}: is fed in a circle: N0 ← N4999 ← N4998 ← N4997 ← N4996 ← … ← N0`,
    ]);
  });
});
