// Arbitrary requests of the whole revised model, small enough to add up every assignment of.
import fc from 'fast-check';
import type {
  OracleLook,
  OracleNode,
  OracleObservation,
  OracleRequest,
  Rates,
} from './oracle/request.js';
import { ORACLE_FUNCTIONS, ORACLE_RATES } from './oracle/tables.js';

/** A few modes of a table, rates high enough that several faults at once matter. */
const fewOf = (table: Rates, most: number, rate: number) =>
  fc
    .uniqueArray(fc.constantFrom(...Object.keys(table)), { minLength: 1, maxLength: most })
    .chain((modes) =>
      fc
        .array(fc.integer({ min: 1, max: 30 }), {
          minLength: modes.length,
          maxLength: modes.length,
        })
        .map((rates) => Object.fromEntries(modes.map((mode, m) => [mode, rates[m]! * rate]))),
    );

const rates = fc.record({
  headEnd: fewOf(ORACLE_RATES.headEnd, 3, 0.001),
  port: fc.constant({ 'no-output': 0.02 }),
  station: fewOf(ORACLE_RATES.station, 3, 0.002),
  junction: fewOf(ORACLE_RATES.junction, 3, 0.002),
  cablePerMetre: fewOf(ORACLE_RATES.cablePerMetre, 2, 1e-5),
});

const nodesOf = (trunk: string, most: number) =>
  fc
    .array(
      fc.record({
        isBox: fc.integer({ min: 0, max: 5 }).map((one) => one === 0),
        cableMetres: fc.integer({ min: 1, max: 60 }),
        groups: fc.constantFrom(undefined, undefined, ['low'], ['high'], ['low', 'high']),
        isOut: fc.integer({ min: 0, max: 7 }).map((one) => one === 0 || undefined),
        lacks: fc.constantFrom(undefined, undefined, undefined, ['talkback'], ['music', 'bell']),
        feeder: fc.nat(20),
      }),
      { minLength: 1, maxLength: most },
    )
    .map((list) =>
      list.map(({ isBox, feeder, isOut, lacks, ...node }, n): OracleNode => {
        const kind = isBox && n > 0 ? 'junction-box' : 'station';
        const fedFrom =
          feeder < 14 ? undefined : feeder < 18 && n > 0 ? `${trunk}${feeder % n}` : null;
        return {
          ...node,
          id: `${trunk}${n}`,
          kind,
          fedFrom,
          isOut: kind === 'station' ? isOut : undefined,
          lacks: kind === 'station' ? lacks : undefined,
        };
      }),
    );

const trunks = fc.oneof(
  nodesOf('A', 3).map((nodes) => [{ id: 'A', nodes }]),
  fc.tuple(nodesOf('A', 2), nodesOf('B', 2)).map(([a, b]) => [
    { id: 'A', nodes: a },
    { id: 'B', nodes: b },
  ]),
);

function observationsOf(drawn: OracleRequest['trunks']): fc.Arbitrary<OracleObservation[]> {
  const possible = drawn.flatMap(({ id, nodes }) =>
    nodes.flatMap((node) =>
      node.kind === 'station' && !node.isOut
        ? ORACLE_FUNCTIONS.filter((name) => !node.lacks?.includes(name)).map((name) => ({
            trunk: id,
            node: node.id,
            function: name,
          }))
        : [],
    ),
  );
  if (possible.length === 0) return fc.constant([]);
  return fc.array(
    fc
      .record({
        at: fc.constantFrom(...possible),
        outcome: fc.constantFrom('works', 'weak', 'fails', 'fails'),
        informant: fc.constantFrom(
          undefined,
          { kind: 'technician' },
          { kind: 'office', id: 'p' },
          { kind: 'office', id: 'q' },
        ),
        cut: fc.nat(20),
      })
      .map(({ at, outcome, informant, cut }) => {
        const nodes = drawn.find(({ id }) => id === at.trunk)!.nodes;
        const disconnectedBelow = cut < nodes.length ? nodes[cut]!.id : undefined;
        return { ...at, outcome, informant, disconnectedBelow };
      }),
    { minLength: 1, maxLength: 5 },
  );
}

function looksOf(drawn: OracleRequest['trunks']): fc.Arbitrary<OracleLook[]> {
  const groups = [...new Set(drawn.flatMap(({ nodes }) => nodes.flatMap((n) => n.groups ?? [])))];
  const parts: Pick<OracleLook, 'place' | 'part' | 'group'>[] = [
    { place: { kind: 'head-end' }, part: 'amplifier' },
    { place: { kind: 'head-end' }, part: 'power' },
    ...groups.map((group) => ({ place: { kind: 'head-end' as const }, part: 'group-off', group })),
    ...drawn.flatMap(({ id: trunk, nodes }) => [
      { place: { kind: 'port' as const, trunk }, part: 'no-output' },
      ...nodes.flatMap((node, n) => {
        const feeder = node.fedFrom === undefined ? (nodes[n - 1]?.id ?? null) : node.fedFrom;
        const span = { kind: 'span' as const, trunk, from: feeder, to: node.id };
        const station = { kind: 'station' as const, trunk, node: node.id };
        return [
          ...['junction-out', 'cable', 'junction-in'].map((part) => ({ place: span, part })),
          ...(node.kind === 'station' && !node.isOut
            ? ['unit', 'volume-down', 'bell-setting'].map((part) => ({ place: station, part }))
            : []),
        ];
      }),
    ]),
  ];
  return fc.array(
    fc
      .record({
        at: fc.constantFrom(...parts),
        seen: fc.constantFrom('sound', 'faulty'),
        informant: fc.constantFrom(undefined, { kind: 'office' }),
      })
      .map(({ at, ...look }) => ({ ...at, ...look })),
    { maxLength: 3 },
  );
}

export interface SmallOptions {
  /** What may occur; left out: all of the model. */
  without?: readonly (
    'looks' | 'disconnected' | 'settings' | 'groups' | 'out' | 'complaint' | 'power'
  )[];
}

const SETTINGS = ['bell-setting', 'announcement-setting', 'music-setting'];

const leftOut = (table: Rates, modes: readonly string[]): Rates =>
  Object.fromEntries(Object.entries(table).filter(([mode]) => !modes.some((m) => mode === m)));

function simplify(request: OracleRequest, without: SmallOptions['without'] = []): OracleRequest {
  const lacks = (what: NonNullable<SmallOptions['without']>[number]) => without.includes(what);
  const { headEnd, station, ...others } = request.rates!;
  const gone = [
    ...(lacks('settings') ? SETTINGS : []),
    ...(lacks('power') ? ['power'] : []),
    ...(lacks('groups') ? ['group-off', 'group-bell-off', 'group-announcement-off'] : []),
  ];
  return {
    ...request,
    trunks: request.trunks.map(({ id, nodes }) => ({
      id,
      nodes: nodes.map(({ groups, isOut, lacks: missing, ...node }) => ({
        ...node,
        ...(lacks('groups') ? {} : { groups }),
        ...(lacks('out') ? {} : { isOut, lacks: missing }),
      })),
    })),
    rates: { ...others, headEnd: leftOut(headEnd!, gone), station: leftOut(station!, gone) },
    observations: request.observations!.map(({ disconnectedBelow, ...told }) =>
      lacks('disconnected') ? told : { ...told, disconnectedBelow },
    ),
    looks: lacks('looks') ? undefined : request.looks,
    begunBy: lacks('complaint') ? 'round' : request.begunBy,
  };
}

export const smallRequests = ({ without }: SmallOptions = {}): fc.Arbitrary<OracleRequest> =>
  trunks
    .chain((drawn) =>
      fc.record({
        trunks: fc.constant(drawn),
        exposureDays: fc.constantFrom(30, 91, 400),
        rates,
        observations: observationsOf(drawn),
        looks: looksOf(drawn),
        unmentioned: fc.option(
          fc
            .subarray([...ORACLE_FUNCTIONS], { minLength: 1, maxLength: 2 })
            .map((functions) => ({ reportRate: 0.3, functions })),
          { nil: undefined },
        ),
        begunBy: fc.constantFrom('complaint' as const, 'complaint' as const, 'round' as const),
      }),
    )
    .map((request) => simplify(request, without));
