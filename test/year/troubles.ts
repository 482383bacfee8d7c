import { type FunctionName, FUNCTIONS, type Outcome } from '#app/locator/index.js';
import { type WorldFault, worldReader } from '#app/locator/worlds/index.js';
import { neededWorlds } from '#app/walks/walk-needed.js';
import type { Heard } from '#app/reports/observation.js';
import type { AsBuilt, RecordTrunk } from '#app/sites/as-built.js';
import { trunksOf } from '#app/sites/drawing.js';
import { pick, type Random } from '../accuracy/site.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { drawFaults, drawOutcome, type Generator, MISSED, MONTH_DAYS } from './generator.js';
import { drawFirmSite, drawnWrong } from './sites.js';

/** What is really the matter, as a firm would sort its calls. */
export const FAMILIES = [
  'a knob or a setting in the room',
  'a unit',
  'a break in the cable or its joints',
  'a bad joint, weak behind it',
  'a short',
  'the head-end or a fuse',
  'a group switched off',
  'several at once',
  'nothing',
] as const;
export type Family = (typeof FAMILIES)[number];

/** One call: the same for whoever works it. */
export interface Trouble {
  site: number;
  seed: number;
  truth: AsBuilt;
  drawing: AsBuilt;
  faults: readonly WorldFault[];
  complaint: FunctionName;
  /** What the office said when it called. */
  heard: readonly Heard[];
  /** Of what was said not to work, what truly does not. */
  missed: readonly Point[];
  family: Family;
  /** Rooms in which the function is truly not well. */
  silentRooms: number;
  generator: Generator;
}

export interface Point {
  trunk: string;
  node: string;
  function: FunctionName;
}

export const SITES = 40;
const MONTHS = 12;
/** That a silent room is told of by itself: the model's report rate. */
const VOLUNTEERED = 0.3;
const DAY = new Date('2026-03-02T08:00:00Z');

export function readerOf(record: AsBuilt): ReturnType<typeof worldReader> {
  return worldReader({ trunks: trunksOf(record), exposureDays: MONTH_DAYS });
}

/** The calls of a year of the firm, the same for the same seed. */
export function drawYear(seed: number, generator: Generator, sites = SITES): Trouble[] {
  return Array.from({ length: sites }).flatMap((_, site) => {
    const random = seededRandom(seed * 1000 + site);
    const truth = drawFirmSite(random);
    const isWrong = random() < generator.wrongDrawing;
    const drawing = isWrong ? drawnWrong(truth, random) : truth;
    return Array.from({ length: MONTHS }).flatMap((_month, month) => {
      const own = (seed * 1000 + site) * 100 + month;
      const trouble = drawCall({ truth, drawing }, generator, seededRandom(own));
      return trouble === null ? [] : [{ ...trouble, site, seed: own }];
    });
  });
}

type Called = Omit<Trouble, 'site' | 'seed'>;

function drawCall(
  { truth, drawing }: Pick<Trouble, 'truth' | 'drawing'>,
  generator: Generator,
  random: Random,
): Called | null {
  const faults = drawFaults(truth, generator, random);
  const read = readerOf(truth);
  const { condition } = read({ faults });
  const rooms = truth.trunks.flatMap(({ trunk, nodes }) =>
    nodes.filter(({ kind }) => kind === 'station').map(({ node }) => ({ trunk, node })),
  );
  const affected = (name: FunctionName) =>
    rooms.filter(({ trunk, node }) => condition(trunk, node, name) !== 'good');
  const missed = FUNCTIONS.filter((name) => affected(name).length > 0);
  if (missed.length === 0 && random() >= generator.aboutNothing) return null;
  const complaint = pickMissed(missed.length > 0 ? missed : FUNCTIONS, random);
  const silent = affected(complaint);
  const caller = pick(silent.length > 0 ? silent : rooms, random);
  const volunteered = rooms.filter(
    (room) => silent.includes(room) && (room === caller || random() < VOLUNTEERED),
  );
  const told = new Telling(generator, condition, random);
  for (const room of volunteered.length > 0 ? volunteered : [caller])
    told.volunteer({ ...room, function: complaint }, 'fails');
  for (const room of askedAfter(drawing, told.heard)) told.ask({ ...room, function: complaint });
  if (complaint !== 'lamp') told.ask({ ...caller, function: 'lamp' });
  const points = told.heard
    .filter(({ outcome }) => outcome !== 'works')
    .map(({ trunk, node, function: name }) => ({ trunk, node, function: name }));
  const truly = points.filter((one) => condition(one.trunk, one.node, one.function) !== 'good');
  return {
    truth,
    drawing,
    faults,
    complaint,
    heard: told.heard,
    missed: truly,
    family: familyOf(neededWorlds([{ faults, probability: 1 }], read, truly)[0]!.faults),
    silentRooms: silent.length,
    generator,
  };
}

function pickMissed(names: readonly FunctionName[], random: Random): FunctionName {
  const total = names.reduce((sum, name) => sum + MISSED[name], 0);
  let left = random() * total;
  return names.find((name) => (left -= MISSED[name]) < 0) ?? names[0]!;
}

class Telling {
  readonly heard: Heard[] = [];

  constructor(
    private readonly generator: Generator,
    private readonly condition: (
      trunk: string,
      node: string,
      name: FunctionName,
    ) => 'good' | 'weak' | 'dead',
    private readonly random: Random,
  ) {}

  volunteer(point: Point, outcome: Outcome): void {
    this.add(point, outcome, 'volunteered');
  }

  ask(point: Point): void {
    const truly = this.condition(point.trunk, point.node, point.function);
    this.add(point, drawOutcome('office', truly, this.generator, this.random), 'gone-through');
  }

  private add(point: Point, outcome: Outcome, how: Heard['how']): void {
    const { length } = this.heard;
    this.heard.push({
      id: String(length),
      ...point,
      outcome,
      saidBy: 'the office',
      saidByKind: 'office',
      how,
      observedAt: DAY,
      period: 0,
      withdrawalId: null,
    });
  }
}

/** Who takes the call asks about the rooms before and behind the first two that were named, and the last on their trunk. */
function askedAfter(drawing: AsBuilt, heard: readonly Heard[]): Omit<Point, 'function'>[] {
  const named = new Set(heard.map(({ node }) => node));
  const asked = heard.slice(0, 2).flatMap(({ trunk: id, node }) => {
    const trunk = drawing.trunks.find((one) => one.trunk === id)!;
    const behind = trunk.nodes.filter((one) => one.kind === 'station' && one.fedFrom === node);
    const before = stationBefore(trunk, node);
    const last = trunk.nodes.filter(({ kind }) => kind === 'station').at(-1);
    return [before, behind[0]?.node, last?.node].flatMap((at) =>
      at === undefined ? [] : [{ trunk: id, node: at }],
    );
  });
  const others = asked.filter(({ node }) => !named.has(node));
  return [...new Map(others.map((one) => [one.node, one])).values()];
}

function stationBefore({ nodes }: RecordTrunk, node: string): string | undefined {
  const feeder = nodes.find((one) => one.node === node)?.fedFrom;
  const found = nodes.find((one) => one.node === feeder);
  if (found === undefined || found.kind === 'station') return found?.node;
  return stationBefore({ nodes } as RecordTrunk, found.node);
}

/** Modes of a station that a hand sets right. */
const BY_HAND: readonly string[] = [
  'volume-down',
  'bell-setting',
  'announcement-setting',
  'music-setting',
];

export function isSetByHand({ mode }: WorldFault): boolean {
  return BY_HAND.includes(mode) || mode.startsWith('group-');
}

function familyOf(needed: readonly WorldFault[]): Family {
  const [fault, ...more] = needed;
  if (fault === undefined) return 'nothing';
  if (more.length > 0) return 'several at once';
  if (fault.mode.startsWith('short-')) return 'a short';
  if (fault.mode.startsWith('group-')) return 'a group switched off';
  if (fault.place.kind === 'span')
    return fault.mode === 'resistive'
      ? 'a bad joint, weak behind it'
      : 'a break in the cable or its joints';
  if (fault.place.kind !== 'station') return 'the head-end or a fuse';
  return isSetByHand(fault) ? 'a knob or a setting in the room' : 'a unit';
}
