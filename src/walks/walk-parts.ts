import { DEFAULT_PLAN } from '../plan/default-plan.js';
import { GROUP_MODES, STATION_MODES } from '../plan/modes.js';
import { type CarriedPart, type Part, partsToCarry } from '../walk/index.js';
import type { ProbableWorld, WorldFault } from '../locator/worlds/index.js';
import type { RecordNode } from '../sites/as-built.js';
import type { WorkTimes } from '../work-times/work-times.js';

/** The drawing as far as parts go. */
export interface PartsDrawing {
  trunks: {
    trunk: string;
    nodes: Pick<RecordNode, 'node' | 'cableMetres' | 'cableType' | 'unitModel'>[];
  }[];
}

export interface WalkParts {
  parts: CarriedPart[];
  secondTripChance: number;
  /** Parts that are needed together, with the chance that just these are; the likeliest first. */
  neededTogether: { parts: string[]; chance: number }[];
}

/** Sets of parts that are told; less likely ones are left out. */
const MOST_SETS = 30;

interface NeededPart {
  id: string;
  carryMinutes: number;
}

/** Fetching and carrying a part: common practice, no source. */
const CARRY_MINUTES = { small: 0.5, cable: 5, station: 3, headEnd: 10 } as const;

const HEAD_END_PARTS: Readonly<Record<string, string>> = {
  power: 'power supply',
  amplifier: 'amplifier module',
  receiver: 'talkback receiver',
  selector: 'room selector',
  'bell-source': 'bell source',
  microphone: 'microphone',
  'line-input': 'line input',
};

type RecordTrunk = PartsDrawing['trunks'][number];

const SET_IN_A_ROOM: readonly string[] = STATION_MODES.filter(
  (mode) => 'isSetting' in DEFAULT_PLAN.station[mode],
);

function isSetByHand({ place, mode }: WorldFault): boolean {
  if (place.kind === 'station') return SET_IN_A_ROOM.includes(mode);
  // Modes of a group are named with their group behind a colon.
  return place.kind === 'head-end' && GROUP_MODES.some((own) => mode.startsWith(`${own}:`));
}

/** What mending a fault takes; nothing where a hand is enough. */
function partsFor(fault: WorldFault, drawing: PartsDrawing): NeededPart[] {
  if (isSetByHand(fault)) return [];
  const { place, component, mode } = fault;
  const { small, headEnd } = CARRY_MINUTES;
  if (place.kind === 'head-end')
    return [{ id: `${HEAD_END_PARTS[mode] ?? mode} for the head-end`, carryMinutes: headEnd }];
  if (place.kind === 'port') return [{ id: 'fuse for an output', carryMinutes: small }];
  const trunk = drawing.trunks.find((one) => one.trunk === place.trunk);
  if (place.kind === 'station') return [unitFor(place.node, trunk)];
  const connectors = { id: 'connectors', carryMinutes: small };
  return component === 'cable' ? [connectors, cableFor(place.to, trunk)] : [connectors];
}

function unitFor(code: string, trunk: RecordTrunk | undefined): NeededPart {
  const model = trunk?.nodes.find(({ node }) => node === code)?.unitModel ?? '';
  return { id: `station unit ${model}`.trim(), carryMinutes: CARRY_MINUTES.station };
}

function cableFor(code: string, trunk: RecordTrunk | undefined): NeededPart {
  const span = trunk?.nodes.find(({ node }) => node === code);
  const metres = Math.ceil((span?.cableMetres ?? 0) / METRES_ROUNDED) * METRES_ROUNDED;
  const id = `${metres} m of ${span?.cableType ?? 'trunk'} cable`;
  return { id, carryMinutes: CARRY_MINUTES.cable };
}

const METRES_ROUNDED = 5;

/**
 * What to take along, each with the chance that it is needed: by what a second trip costs. `worlds` as they were found;
 * those in which nothing is at fault need nothing.
 */
export function walkParts(
  worlds: readonly Pick<ProbableWorld, 'faults' | 'probability'>[],
  drawing: PartsDrawing,
  { secondTrip }: Pick<WorkTimes, 'secondTrip'>,
): WalkParts {
  const faulty = worlds.filter(({ faults }) => faults.length > 0);
  const total = faulty.reduce((sum, { probability }) => sum + probability, 0);
  const needed = faulty.map(({ faults }) => faults.flatMap((fault) => partsFor(fault, drawing)));
  const minutes = new Map(needed.flat().map(({ id, carryMinutes }) => [id, carryMinutes]));
  const parts = [...minutes].map(([id, carryMinutes]): Part => ({
    id,
    carryMinutes,
    // A world goes by its number here: what it needs depends on how its places failed.
    neededChance: ([world = 0]) => (needed[world]?.some((part) => part.id === id) ? 1 : 0),
  }));
  const chances = faulty.map(({ probability }) => probability / total);
  return {
    ...partsToCarry(
      chances.map((probability, world) => ({ faults: [world], probability })),
      parts,
      secondTrip,
    ),
    neededTogether: together(
      needed.map((own) => own.map(({ id }) => id)),
      chances,
    ),
  };
}

/** Worlds that need the same parts are one. */
function together(
  needed: readonly (readonly string[])[],
  chances: readonly number[],
): WalkParts['neededTogether'] {
  const sets = new Map<string, { parts: string[]; chance: number }>();
  for (const [world, ids] of needed.entries()) {
    const parts = [...new Set(ids)].sort();
    const key = JSON.stringify(parts);
    const chance = (sets.get(key)?.chance ?? 0) + (chances[world] ?? 0);
    if (parts.length > 0) sets.set(key, { parts, chance });
  }
  return [...sets.values()].sort((a, b) => b.chance - a.chance).slice(0, MOST_SETS);
}
