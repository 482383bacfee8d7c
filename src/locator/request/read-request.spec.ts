import { describe, expect, it } from '@jest/globals';
import { InvalidLocateRequest } from './errors.js';
import { MAX_EXPLANATIONS, MAX_ID_LENGTH, MAX_NODES, MAX_OBSERVATIONS } from './limits.js';
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
});
