import { describe, expect, it } from '@jest/globals';
import { InvalidLocateRequest } from './errors.js';
import {
  MAX_DISCONNECTIONS_OF_ONE_TRUNK,
  MAX_EXPLANATIONS,
  MAX_GROUPS,
  MAX_ID_LENGTH,
  MAX_LOOKS,
  MAX_NODES,
  MAX_OBSERVATIONS,
} from './limits.js';
import { readRequest } from './read-request.js';

const good = {
  trunks: [
    {
      id: 'A',
      nodes: [
        { id: 'A1', kind: 'station', cableMetres: 18 },
        { id: 'T', kind: 'junction-box', cableMetres: 4 },
        { id: 'A2', kind: 'station', cableMetres: 5, fedFrom: 'T' },
      ],
    },
  ],
  exposureDays: 91,
};

const FIGURES_MISSING = ['sourceVolts', 'sourceOhms', 'stationAmps', 'coreOhmsPerKm'].map(
  (figure) => `/electrical/${figure} is missing`,
);

function errorsOf(request: unknown): string[] {
  try {
    readRequest(request);
  } catch (error) {
    if (error instanceof InvalidLocateRequest)
      return error.errors.map(({ pointer, reason }) => `${pointer} ${reason}`);
    throw error;
  }
  return [];
}

const node = (n: object) => ({ id: 'A1', kind: 'station', cableMetres: 1, ...n });
const withNodes = (...nodes: object[]) => ({ ...good, trunks: [{ id: 'A', nodes }] });
const observation = (o: object) => ({
  ...good,
  observations: [{ trunk: 'A', node: 'A1', function: 'lamp', outcome: 'works', ...o }],
});

describe('reading a locate request', () => {
  it('takes a good one and fills in nobody in particular of the office', () => {
    expect(readRequest(observation({})).observations).toEqual([
      { trunk: 'A', node: 'A1', function: 'lamp', outcome: 'works', informant: { kind: 'office' } },
    ]);
  });

  it('names every error in one go', () => {
    expect(
      errorsOf({
        trunks: [
          {
            id: 'A',
            colour: 'red',
            nodes: [node({ cableMetres: -1 }), { id: '', kind: 'horn', cableMetres: NaN }],
          },
        ],
        exposureDays: '91',
        rates: { port: { 'no-output': -1 }, station: { melted: 1 } },
        observations: [{ trunk: 'A', node: 'A1', function: 'fax', outcome: 'works' }, 7],
        'a/b~c': 1,
      }),
    ).toEqual([
      '/a~1b~0c unknown field',
      '/trunks/0/colour unknown field',
      '/trunks/0/nodes/0/cableMetres must be from 0 to 100000',
      '/trunks/0/nodes/1/id must be a text that is not empty',
      '/trunks/0/nodes/1/kind must be one of station, junction-box',
      '/trunks/0/nodes/1/cableMetres must be a number',
      '/exposureDays must be a number',
      '/rates/port/no-output must be from 0 to 1000000',
      '/rates/station/melted unknown field',
      '/observations/0/function must be one of lamp, announcement, bell, music, room-call, talkback',
      '/observations/1 must be an object',
    ]);
  });

  it.each([
    ['nothing', undefined, [' must be an object']],
    ['a list', [], [' must be an object']],
    ['an empty object', {}, ['/trunks is missing', '/exposureDays is missing']],
    [
      'trunks and nodes without what they need',
      { ...good, trunks: [{}, { id: 'A', nodes: [{}] }] },
      [
        '/trunks/0/id is missing',
        '/trunks/0/nodes is missing',
        '/trunks/1/nodes/0/id is missing',
        '/trunks/1/nodes/0/kind is missing',
        '/trunks/1/nodes/0/cableMetres is missing',
      ],
    ],
    [
      'null, which is there and no number',
      { ...good, exposureDays: null },
      ['/exposureDays must be a number'],
    ],
    [
      'an observation without an outcome',
      observation({ outcome: undefined }),
      ['/observations/0/outcome is missing'],
    ],
    ['a supply without its volts', { ...good, electrical: {} }, FIGURES_MISSING],
    [
      'the unmentioned without how much is reported',
      { ...good, unmentioned: {} },
      ['/unmentioned/reportRate is missing', '/unmentioned/functions is missing'],
    ],
    ['no trunk', { ...good, trunks: [] }, ['/trunks must have at least 1']],
    ['no node', withNodes(), ['/trunks/0/nodes must have at least 1']],
    [
      'a trunk twice',
      { ...good, trunks: [good.trunks[0], good.trunks[0]] },
      ['/trunks/1/id "A" is already a trunk'],
    ],
    [
      'a node twice',
      withNodes(node({}), node({})),
      ['/trunks/0/nodes/1/id "A1" is already a node'],
    ],
    [
      'fed from nowhere',
      withNodes(node({ fedFrom: 'X' })),
      ['/trunks/0/nodes/0/fedFrom "X" is not a node of this trunk'],
    ],
    [
      'a ring, but not what hangs on it',
      withNodes(
        node({ fedFrom: 'A3' }),
        node({ id: 'A2' }),
        node({ id: 'A3', fedFrom: 'A2' }),
        node({ id: 'A4' }),
      ),
      [0, 1, 2].map(
        (n) => `/trunks/0/nodes/${n}/fedFrom is fed from itself: the feeds form a ring`,
      ),
    ],
    [
      'fed from itself',
      withNodes(node({ fedFrom: 'A1' })),
      ['/trunks/0/nodes/0/fedFrom is fed from itself: the feeds form a ring'],
    ],
    [
      'a long id',
      withNodes(node({ id: 'x'.repeat(MAX_ID_LENGTH + 1) })),
      [`/trunks/0/nodes/0/id must have at most ${MAX_ID_LENGTH} characters`],
    ],
    [
      'no such trunk',
      observation({ trunk: 'B' }),
      ['/observations/0/trunk "B" is not a trunk of this request'],
    ],
    [
      'no such node',
      observation({ node: 'A9' }),
      ['/observations/0/node "A9" is not a node of this trunk'],
    ],
    [
      'no room there',
      observation({ node: 'T' }),
      ['/observations/0/node "T" is a junction box: no room there'],
    ],
    [
      'no such informant',
      observation({ informant: { kind: 'parrot' } }),
      ['/observations/0/informant/kind must be one of office, technician'],
    ],
    ['infinite exposure', { ...good, exposureDays: Infinity }, ['/exposureDays must be a number']],
    [
      'a rate above 1',
      { ...good, unmentioned: { reportRate: 1.5, functions: ['bell', 'bell'] } },
      [
        '/unmentioned/reportRate must be from 0 to 1',
        '/unmentioned/functions/1 "bell" is already listed',
      ],
    ],
  ])('refuses %s', (_, request, errors) => {
    expect(errorsOf(request)).toEqual(errors);
  });

  it('refuses one id for two kinds of person', () => {
    const both = ['office', 'technician'].map((kind) => ({
      trunk: 'A',
      node: 'A1',
      function: 'lamp',
      outcome: 'works',
      informant: { id: 'p', kind },
    }));
    expect(errorsOf({ ...good, observations: both })).toEqual([
      '/observations/1/informant/kind "p" is also given as office: one id, one kind',
    ]);
  });

  it('states its limits', () => {
    const many = Array.from({ length: MAX_NODES + 1 }, (_, n) => node({ id: `N${n}` }));
    expect(errorsOf(withNodes(...many))).toEqual([
      `/trunks/0/nodes at most ${MAX_NODES} are allowed`,
    ]);
    const half = many.slice(0, MAX_NODES / 2 + 1);
    expect(errorsOf({ ...good, trunks: ['A', 'B'].map((id) => ({ id, nodes: half })) })).toEqual([
      `/trunks at most ${MAX_NODES} nodes are allowed in all`,
    ]);
    expect(errorsOf({ ...good, observations: new Array(MAX_OBSERVATIONS + 1).fill({}) })).toEqual([
      `/observations at most ${MAX_OBSERVATIONS} are allowed`,
    ]);
  });

  it('does not take a name of every object for a mode or an id', () => {
    const request = JSON.parse(
      '{"trunks":[{"id":"__proto__","nodes":[{"id":"constructor","kind":"station","cableMetres":1}]}],"exposureDays":1}',
    ) as unknown;
    expect(errorsOf(request)).toEqual([]);
    expect(errorsOf({ ...good, rates: { port: { constructor: 1 } } })).toEqual([
      '/rates/port/constructor unknown field',
    ]);
  });

  it('takes a whole number of explanations up to the stated limit', () => {
    expect(readRequest({ ...good, explanations: 0 }).explanations).toBe(0);
    expect(readRequest({ ...good, explanations: MAX_EXPLANATIONS }).explanations).toBe(
      MAX_EXPLANATIONS,
    );
    expect(errorsOf({ ...good, explanations: MAX_EXPLANATIONS + 1 })).toEqual([
      `/explanations must be from 0 to ${MAX_EXPLANATIONS}`,
    ]);
    expect(errorsOf({ ...good, explanations: 1.5 })).toEqual([
      '/explanations must be a whole number',
    ]);
  });

  it('takes what is known of stations, looks, and how it began', () => {
    const request = {
      ...withNodes(
        node({ groups: ['low'], isOut: true }),
        node({ id: 'A2', groups: ['low', 'high'], lacks: ['talkback'] }),
      ),
      observations: [
        { trunk: 'A', node: 'A2', function: 'bell', outcome: 'works', disconnectedBelow: 'A1' },
      ],
      looks: [
        { place: { kind: 'span', trunk: 'A', from: 'A1', to: 'A2' }, part: 'cable', seen: 'sound' },
        {
          place: { kind: 'head-end' },
          part: 'group-off',
          group: 'high',
          seen: 'faulty',
          informant: { kind: 'office' },
        },
      ],
      begunBy: 'round',
      falseAlarmRatio: 0.05,
    };
    const read = readRequest(request);
    expect(read).toMatchObject(request);
    expect(read.looks?.[0]?.informant).toEqual({ kind: 'technician' });
  });

  const office = { kind: 'head-end' };
  const span = { kind: 'span', trunk: 'A', from: null, to: 'A1' };
  const station = { kind: 'station', trunk: 'A', node: 'A1' };
  const look = (l: object) => ({
    ...good,
    looks: [{ place: station, part: 'unit', seen: 'sound', ...l }],
  });
  const two = (first: object, second: object) =>
    withNodes(node(first), node({ id: 'A2', ...second }));
  const told = (request: object, o: object) => ({
    ...request,
    observations: [{ trunk: 'A', node: 'A1', function: 'lamp', outcome: 'works', ...o }],
  });

  it.each([
    [
      'a look at no such part',
      look({ part: 'fuse' }),
      /^\/looks\/0\/part must be one of unit, dead,/,
    ],
    ['a part of another place', look({ place: span }), /part must be one of junction-out, cable/],
    ['nothing seen', look({ seen: 'perhaps' }), /^\/looks\/0\/seen must be one of sound, faulty$/],
    [
      'a span that is not drawn',
      look({ place: { ...span, from: 'A2' }, part: 'cable' }),
      /^\/looks\/0\/place\/from "A1" is fed from the port: null$/,
    ],
    [
      'a span fed from elsewhere',
      look({ place: { ...span, to: 'A2' }, part: 'cable' }),
      /^\/looks\/0\/place\/from "A2" is fed from "T"$/,
    ],
    [
      'a look at the unit of a junction box',
      look({ place: { ...station, node: 'T' } }),
      /^\/looks\/0\/place\/node "T" is a junction box: no room there$/,
    ],
    [
      'a look on no trunk',
      look({ place: { kind: 'port', trunk: 'B' }, part: 'no-output' }),
      /trunk "B"/,
    ],
    [
      'a field of another place',
      look({ place: { ...station, to: 'A2' } }),
      /^\/looks\/0\/place\/to is no field of a place of kind station$/,
    ],
    [
      'a group for what is of none',
      look({ place: office, part: 'power', group: 'low' }),
      /^\/looks\/0\/group "power" is not of a group$/,
    ],
    [
      'no group for what is of one',
      look({ place: office, part: 'group-off' }),
      /^\/looks\/0\/group is missing$/,
    ],
    [
      'no such group',
      look({ place: office, part: 'group-off', group: 'low' }),
      /^\/looks\/0\/group "low" is not a group of this request$/,
    ],
    [
      'an identity of who looked',
      look({ informant: { kind: 'office', id: 'p' } }),
      /^\/looks\/0\/informant\/id unknown field$/,
    ],
    [
      'a group twice',
      two({ groups: ['low', 'low'] }, {}),
      /^\/trunks\/0\/nodes\/0\/groups\/1 "low" is already listed$/,
    ],
    [
      'what is told of a station that is out',
      told(two({ isOut: true }, {}), {}),
      /^\/observations\/0\/node "A1" is out: nothing is told of it$/,
    ],
    [
      'what is told of a function that is not there',
      told(two({ lacks: ['lamp'] }, {}), {}),
      /^\/observations\/0\/function "A1" lacks lamp$/,
    ],
    [
      'a look at a unit that is out',
      { ...look({}), trunks: two({ isOut: true }, {}).trunks },
      /^\/looks\/0\/place\/node "A1" is out: nothing is told of it$/,
    ],
    [
      'a junction box that is out',
      two({ kind: 'junction-box', isOut: true }, {}),
      /^\/trunks\/0\/nodes\/0\/isOut is said of a junction box: no unit there$/,
    ],
    [
      'a disconnection on another trunk',
      told(
        {
          ...good,
          trunks: [...good.trunks, { id: 'B', nodes: [node({ id: 'B1' })] }],
        },
        { disconnectedBelow: 'B1' },
      ),
      /^\/observations\/0\/disconnectedBelow "B1" is not a node of this trunk$/,
    ],
    [
      'another beginning',
      { ...good, begunBy: 'chance' },
      /^\/begunBy must be one of complaint, round$/,
    ],
    ['a ratio that loses digits', { ...good, falseAlarmRatio: 0.001 }, /must be from 0.01 to 1$/],
  ])('refuses %s', (_, request, error) => {
    expect(errorsOf(request)).toEqual([expect.stringMatching(error)]);
  });

  it('states how many groups, looks and disconnections there may be', () => {
    const groups = Array.from({ length: MAX_GROUPS + 1 }, (_, g) => `G${g}`);
    const named = groups.map((group) => node({ id: group, groups: [group] }));
    expect(errorsOf(withNodes(...named))).toEqual([
      `/trunks at most ${MAX_GROUPS} groups are allowed in all`,
    ]);
    expect(errorsOf({ ...good, looks: new Array(3 * MAX_LOOKS).fill({}) })).toEqual([
      `/looks at most ${MAX_LOOKS} are allowed`,
    ]);
    const cuts = Array.from({ length: 3 * MAX_DISCONNECTIONS_OF_ONE_TRUNK }, (_, n) => `N${n}`);
    const drawn = withNodes(...cuts.map((id) => node({ id })));
    const observations = cuts.map((disconnectedBelow) => ({
      trunk: 'A',
      node: 'N0',
      function: 'lamp',
      outcome: 'works',
      disconnectedBelow,
    }));
    const most = MAX_DISCONNECTIONS_OF_ONE_TRUNK;
    expect(errorsOf({ ...drawn, observations: observations.slice(0, most) })).toEqual([]);
    expect(errorsOf({ ...drawn, observations })[0]).toBe(
      `/observations/${most}/disconnectedBelow at most ${most} nodes of one trunk are allowed`,
    );
  });
});
