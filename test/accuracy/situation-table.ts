import type { RequestLook } from '#app/locator/index.js';
import type { WorldFault } from '#app/locator/worlds/index.js';
import type { Node, Random, Site } from './site.js';
import type { FunctionName } from './true-conditions.js';

// The situations of the revised model's table, each as a family: a fault by the model's rates among those that make the
// situation, told with the model's errors. Right is the place that is the cause, not any place where something is broken.

/** Trunk A has 20 rooms in a row, trunk B ten. `A9` to `A14` are a group where the family has one. */
const ROOMS = { A: 20, B: 10 } as const;
export const EXPOSURE_DAYS = 91;

export interface Situation {
  name: string;
  /** Which faults make it, told the conditions that each makes. */
  isMadeBy: (well: (node: string, name?: FunctionName) => boolean, fault: WorldFault) => boolean;
  /** What is asked about, by room and function. */
  asked: readonly [node: string, name: FunctionName][];
  group?: readonly string[];
  /** What somebody looked at and found sound, where that was not what is broken. */
  sound?: readonly RequestLook[];
  /** Rooms whose unit is bridged over or missing, as the record has it. */
  out?: readonly string[];
  /** Two callers: of the first thing asked about, one says that it fails, the other that it works. */
  isContradicted?: boolean;
  /** There are also cases in which nothing is wrong, as often as the model has it that somebody calls about nothing. */
  hasCallsAboutNothing?: boolean;
}

const announced = (...nodes: string[]) =>
  nodes.map((node): [string, FunctionName] => [node, 'announcement']);
const office = { informant: { kind: 'office' }, seen: 'sound' } as const;
export const HEAD_END = { kind: 'head-end' } as const;
const TAIL = Array.from({ length: 6 }, (_, n) => `A${n + 15}`);
const FLOOR = Array.from({ length: 6 }, (_, n) => `A${n + 9}`);

export const SITUATIONS: readonly Situation[] = [
  {
    name: 'one room silent between two heard',
    isMadeBy: (well) => !well('A9') && well('A8') && well('A10'),
    asked: announced('A9', 'A8', 'A10'),
  },
  {
    name: 'the same, and the office says: head-end on, volume up',
    isMadeBy: (well, { mode }) =>
      !well('A9') && well('A8') && well('A10') && mode !== 'volume-down',
    asked: announced('A9', 'A8', 'A10'),
    sound: [
      { ...office, place: HEAD_END, part: 'power' },
      { ...office, place: { kind: 'station', trunk: 'A', node: 'A9' }, part: 'volume-down' },
    ],
  },
  {
    name: 'the bell silent in one room only, announcements heard there',
    isMadeBy: (well) =>
      !well('A9', 'bell') && well('A9') && well('A8', 'bell') && well('A10', 'bell'),
    asked: [
      ['A9', 'bell'],
      ['A9', 'announcement'],
      ['A8', 'bell'],
      ['A10', 'bell'],
    ],
  },
  {
    name: 'announcements nowhere, the bell everywhere',
    isMadeBy: (well) => !well('A1') && !well('B1') && well('A1', 'bell') && well('B1', 'bell'),
    asked: [...announced('A2', 'A9', 'B3'), ['A2', 'bell'], ['A9', 'bell'], ['B3', 'bell']],
  },
  {
    name: 'silent from one room on',
    isMadeBy: (well) => well('A11') && !well('A12') && !well('A20'),
    asked: announced('A12', 'A13', 'A16', 'A20', 'A11'),
  },
  {
    name: 'the same, terminals there opened and found sound',
    isMadeBy: (well, { component }) =>
      well('A11') && !well('A12') && !well('A20') && component !== 'junction-in',
    asked: announced('A12', 'A13', 'A16', 'A20', 'A11'),
    sound: [
      {
        seen: 'sound',
        place: { kind: 'span', trunk: 'A', from: 'A11', to: 'A12' },
        part: 'junction-in',
      },
    ],
  },
  {
    name: 'a floor that is a group silent, the rest heard',
    isMadeBy: (well) => FLOOR.every((node) => !well(node)) && well('A8') && well('A15'),
    asked: announced('A9', 'A10', 'A12', 'A8', 'A15'),
    group: FLOOR,
  },
  {
    name: '5: the tail, which is a group, silent',
    isMadeBy: (well) => TAIL.every((node) => !well(node)) && well('A14'),
    asked: announced('A15', 'A16', 'A20', 'A14'),
    group: TAIL,
  },
  {
    name: 'all of one line silent, the other heard',
    isMadeBy: (well) => !well('A1') && !well('A20') && well('B1'),
    asked: announced('A1', 'A5', 'A12', 'A20', 'B2'),
  },
  {
    name: 'the same, its lamps dark: the fuse or the terminals beside it',
    isMadeBy: (well) => !well('A1', 'lamp') && !well('A20', 'lamp') && well('B1', 'lamp'),
    asked: [...announced('A1', 'A5', 'A20', 'B2'), ['A1', 'lamp'], ['A20', 'lamp'], ['B2', 'lamp']],
  },
];

const ONE_CONTRADICTED: Omit<Situation, 'name'> = {
  isMadeBy: (well) => !well('A9') && well('A8') && well('A10'),
  asked: announced('A9', 'A8', 'A10'),
  isContradicted: true,
};
/** Whether the room of which they speak is the first silent one or the last heard is drawn too. */
const TAIL_CONTRADICTED: Omit<Situation, 'name'> = {
  isMadeBy: (well) => well('A11') && !well('A13') && !well('A20'),
  asked: announced('A12', 'A13', 'A16', 'A20', 'A11'),
  isContradicted: true,
};

/** Of two who contradict each other, and of units that are bridged over or missing. */
export const OTHER_SITUATIONS: readonly Situation[] = [
  {
    ...ONE_CONTRADICTED,
    name: 'one room silent between two heard, of which two callers contradict each other',
  },
  {
    ...ONE_CONTRADICTED,
    name: 'the same, with calls about nothing',
    hasCallsAboutNothing: true,
  },
  {
    ...TAIL_CONTRADICTED,
    name: 'silent from one room on, two callers contradict each other about the room there',
  },
  {
    ...TAIL_CONTRADICTED,
    name: 'the same, with calls about nothing',
    hasCallsAboutNothing: true,
  },
  {
    name: 'silent from behind a unit that is bridged over',
    isMadeBy: (well) => well('A11') && !well('A13') && !well('A20'),
    asked: announced('A13', 'A16', 'A20', 'A11'),
    out: ['A12'],
  },
  {
    name: 'one room silent, the units on both sides of it missing',
    isMadeBy: (well) => !well('A9') && well('A7') && well('A11'),
    asked: announced('A9', 'A7', 'A11'),
    out: ['A8', 'A10'],
  },
];

export function drawRows(random: Random): Site {
  const trunks = Object.entries(ROOMS).map(([id, rooms]) => ({
    id,
    nodes: Array.from({ length: rooms }, (_, n): Node => ({
      id: `${id}${n + 1}`,
      kind: 'station',
      feeder: n - 1,
      cableMetres: Math.round(30 + random() * 370) / 10,
    })),
  }));
  return { trunks, exposureDays: EXPOSURE_DAYS };
}
