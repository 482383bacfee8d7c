import { DEFAULT_PLAN } from '#app/plan/default-plan.js';
import { disconnectCheck } from '#app/walks/walk-checks.js';
import { nameNodesOf } from '#app/sites/drawing.js';
import {
  chanceOf,
  isRestored,
  OnSite,
  type Part,
  partsOfSpan,
  partsUpFrom,
  searchAll,
  TIMES,
  WORDS,
} from './on-site.js';
import { nodesUp } from './sites.js';
import { type Point, readerOf, type Trouble } from './troubles.js';

/** What a trouble took, by whoever worked it. */
export interface Worked {
  officeMinutes: number;
  minutes: number;
  partTrips: number;
  lateTrips: number;
  isSpared: boolean;
  /** All that was missed works in the end. */
  isRestored: boolean;
}

/** Nobody had to go: what the office did was enough. */
export function spared(officeMinutes: number): Worked {
  const nobodyWent = { minutes: 0, partTrips: 0, lateTrips: 0 };
  return { officeMinutes, ...nobodyWent, isSpared: true, isRestored: true };
}

/** Somebody went and left again. */
export function workedOnSite(
  { minutes, partTrips, lateTrips, isRestored }: OnSite,
  officeMinutes: number,
): Worked {
  return { officeMinutes, minutes, partTrips, lateTrips, isSpared: false, isRestored };
}

export type Way = (trouble: Trouble) => Worked;

type Room = Pick<Point, 'trunk' | 'node'>;

/** Rooms said to be silent, and heard, as the drawing has them: the nearest along the cable first. */
function toldRooms({ drawing, heard, complaint }: Trouble) {
  const told = heard.filter((one) => one.function === complaint);
  const metres = ({ trunk, node }: Room) =>
    nodesUp(
      drawing.trunks.find((one) => one.trunk === trunk)!,
      node,
    ).reduce((sum, { cableMetres }) => sum + cableMetres, 0);
  const rooms = (isSilent: boolean) =>
    told
      .filter(({ outcome }) => (outcome !== 'works') === isSilent)
      .map(({ trunk, node }): Room => ({ trunk, node }))
      .sort((a, b) => metres(a) - metres(b));
  return { silent: rooms(true), heard: rooms(false) };
}

/** Where nothing is wrong: one goes there, listens, and leaves. The same for all. */
export function foundNothing(trouble: Trouble): Worked {
  const work = new OnSite(trouble, trouble.faults, 'everything');
  for (const { trunk, node, function: name, outcome } of trouble.heard)
    if (outcome !== 'works') work.listen({ trunk, node, function: name });
  return workedOnSite(work, 0);
}

/** What the usual stock of a van lacks is only taken along where nothing at all was heard: then a power supply. */
function carriedByHabit({ heard }: Trouble): ReadonlySet<string> {
  const isAllSilent = heard.every(({ outcome }) => outcome !== 'works');
  return new Set(isAllSilent ? ['power supply for the head-end'] : []);
}

/** Works by a habit until all that was missed works; what the habit does not find, by looking at everything. */
function byHabit(habit: (work: Worker, trouble: Trouble) => void, asks = false): Way {
  return (trouble) => {
    if (trouble.family === 'nothing') return foundNothing(trouble);
    const { minutes: officeMinutes, faults } = asks
      ? askUsual(trouble)
      : { minutes: 0, ...trouble };
    if (isRestored(trouble, faults, readerOf(trouble.truth))) return spared(officeMinutes);
    const work = new OnSite(trouble, faults, carriedByHabit(trouble));
    const worker = new Worker(work);
    for (let round = 0, mended = -1; round < MOST_ROUNDS && mended < work.mendings; round++) {
      mended = work.mendings;
      habit(worker, { ...trouble, heard: round === 0 ? trouble.heard : work.saidAgain() });
      if (work.isRestored) break;
    }
    searchAll(work, (part) => worker.wasOpen(part), worker.near);
    return workedOnSite(work, officeMinutes);
  };
}

/** Whenever something was mended and not all works, it is begun again from what the office then says. */
const MOST_ROUNDS = 5;
const ASK_VOLUME_MINUTES = 3;
const MOST_ROOMS_ASKED = 2;

/** Who takes the call asks whether the volume is up, where one or two rooms are silent. */
function askUsual(trouble: Trouble) {
  const { silent } = toldRooms(trouble);
  if (silent.length > MOST_ROOMS_ASKED) return { minutes: 0, faults: trouble.faults };
  const faults = trouble.faults.filter((fault) => {
    const { place } = fault;
    if (fault.mode !== 'volume-down' || place.kind !== 'station') return true;
    const isAsked = silent.some(({ trunk, node }) => trunk === place.trunk && node === place.node);
    return !isAsked || chanceOf(trouble.seed, 'usual')() < OFFICE_MISSES * trouble.generator.errors;
  });
  return { minutes: ASK_VOLUME_MINUTES * silent.length, faults };
}

const OFFICE_MISSES = DEFAULT_PLAN.looks.office.missed;

class Worker {
  /** Where the trouble is thought to be. */
  near: Room | undefined;
  private readonly opened = new Set<string>();

  constructor(readonly work: OnSite) {}

  wasOpen(part: Part): boolean {
    return this.opened.has(JSON.stringify(part));
  }

  /** Opens what was not open yet, one after the other, until all works. */
  open(parts: readonly Part[]): void {
    for (const part of parts) {
      if (this.work.isRestored) return;
      if (this.wasOpen(part)) continue;
      this.opened.add(JSON.stringify(part));
      this.work.open(part);
    }
  }

  openRoom(room: Room): void {
    const { trunk, node } = room;
    if (!this.work.isRestored) this.near = room;
    const { nodes } = this.work.trouble.drawing.trunks.find((one) => one.trunk === trunk)!;
    const drawn = nodes.find((one) => one.node === node)!;
    const unit: Part[] =
      drawn.kind === 'station'
        ? [{ place: { kind: 'station', trunk, node }, component: 'station' }]
        : [];
    this.open([...unit, ...partsOfSpan(trunk, drawn)]);
  }

  openHeadEnd(trunk: string): void {
    this.open([
      { place: { kind: 'port', trunk }, component: 'port' },
      { place: { kind: 'head-end' }, component: 'head-end' },
    ]);
  }

  isSilent({ trunk, node }: Room): boolean {
    return this.work.listen({ trunk, node, function: this.work.trouble.complaint }) !== 'works';
  }
}

/** With a short on it, all of a trunk is silent: halved by disconnecting what is past a room. */
function halveShort(worker: Worker, { drawing, truth }: Trouble, trunk: string): void {
  const { nodes } = drawing.trunks.find((one) => one.trunk === trunk)!;
  const saying = { words: WORDS, nameNode: nameNodesOf(truth, WORDS), times: TIMES };
  let [low, high] = [-1, nodes.length - 1];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const { node } = nodes[middle]!;
    const check = disconnectCheck(readerOf(truth), { trunk, node }, null, saying);
    if (worker.work.check(check) === COMES_BACK) low = middle;
    else high = middle;
  }
  if (low >= 0) worker.openRoom({ trunk, node: nodes[low]!.node });
  worker.openRoom({ trunk, node: nodes[high]!.node });
}

const COMES_BACK = 0;

/** The stations on the way from the head-end to a room, the room last. */
function stationsTo({ drawing }: Trouble, { trunk, node }: Room): Room[] {
  return nodesUp(
    drawing.trunks.find((one) => one.trunk === trunk)!,
    node,
  )
    .filter(({ kind }) => kind === 'station')
    .map((one) => ({ trunk, node: one.node }))
    .reverse();
}

/** The fuse, then room by room from the head-end until one is silent; what lies before it is opened. */
export const roomByRoom = byHabit((worker, trouble) => {
  const [first] = toldRooms(trouble).silent;
  if (first === undefined) return;
  worker.open([{ place: { kind: 'port', trunk: first.trunk }, component: 'port' }]);
  if (worker.work.isRestored) return;
  const rooms = stationsTo(trouble, first);
  const found = rooms.find((room) => worker.isSilent(room)) ?? first;
  if (found === rooms[0]) worker.openHeadEnd(first.trunk);
  worker.openRoom(found);
  worker.openHeadEnd(first.trunk);
  if (found === rooms[0] && !worker.work.isRestored) halveShort(worker, trouble, first.trunk);
});

/** Straight to the first room said to be silent; it is opened, then, as long as rooms are silent, the one before it. */
export const firstSilentRoom = byHabit((worker, trouble) => {
  const [first] = toldRooms(trouble).silent;
  if (first === undefined) return;
  let isAllSilent = true;
  for (const room of stationsTo(trouble, first).reverse()) {
    if (worker.work.isRestored) return;
    isAllSilent = room.node === first.node || worker.isSilent(room);
    if (!isAllSilent) break;
    worker.openRoom(room);
  }
  worker.openHeadEnd(first.trunk);
  if (isAllSilent && !worker.work.isRestored) halveShort(worker, trouble, first.trunk);
});

/**
 * The most careful habit. The office is asked about the volume. Where everything told of is silent, the head-end first; where
 * a room behind is heard, the room; else the stretch between the last room heard and the first silent is halved by listening.
 */
export const halving = byHabit((worker, trouble) => {
  const { silent, heard } = toldRooms(trouble);
  const [first] = silent;
  if (first === undefined) return;
  const way = stationsTo(trouble, first);
  const isOn = (room: Room, others: readonly Room[]) =>
    others.some(({ trunk, node }) => trunk === room.trunk && node === room.node);
  const isBehind = (room: Room) => isOn(first, stationsTo(trouble, room).slice(0, -1));
  if (heard.some(isBehind)) worker.openRoom(first);
  if (worker.work.isRestored) return;
  if (heard.length === 0) worker.openHeadEnd(first.trunk);
  let low = way.findLastIndex((room) => isOn(room, heard));
  let high = way.length - 1;
  while (high - low > 1 && !worker.work.isRestored) {
    const middle = Math.floor((low + high) / 2);
    if (worker.isSilent(way[middle]!)) high = middle;
    else low = middle;
  }
  worker.openRoom(way[high]!);
  if (high === 0) worker.openHeadEnd(first.trunk);
  if (high === 0 && !worker.work.isRestored) halveShort(worker, trouble, first.trunk);
  for (const part of partsUpFrom(trouble.drawing, first)) {
    if (worker.work.isRestored) return;
    if (part.place.kind === 'head-end') worker.open([part]);
  }
}, true);
