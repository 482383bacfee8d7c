import type { Outcome } from '#app/locator/index.js';
import type { WorldFault } from '#app/locator/worlds/index.js';
import type { SiteCheck } from '#app/walks/walk-checks.js';
import { FALSE_CHANCE, missedByTechnician } from '#app/walks/walk-looks.js';
import { type OpenedPlace, openedPlace, type Standing } from '#app/walks/walk-place.js';
import { walkParts } from '#app/walks/walk-parts.js';
import { walkSpots } from '#app/walks/walk-spots.js';
import type { Heard } from '#app/reports/observation.js';
import { nameNodesOf } from '#app/sites/drawing.js';
import { wordsIn } from '#app/words/index.js';
import { USUAL_WORK_TIMES } from '#app/work-times/work-times.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { drawIndex, drawOutcome, erring } from './generator.js';
import { isSetByHand, type Point, readerOf, type Trouble } from './troubles.js';

export const TIMES = USUAL_WORK_TIMES;
export const WORDS = wordsIn('en');
/** A technician does not stay longer: what is not found by then is for another trip. */
const MOST_MINUTES_OF_A_VISIT = 150;
const SET_RIGHT_MINUTES = 1;
/** In every van. Cable of up to so many metres is. */
const VAN: readonly string[] = ['connectors', 'fuse for an output', 'station unit'];
const VAN_CABLE_METRES = 20;

export type Part = Pick<WorldFault, 'place' | 'component'>;

/** The same chance of the same thing at the same trouble, whoever does it and when. */
export function chanceOf(seed: number, what: string): () => number {
  let hash = seed ^ 0x9e3779b9;
  for (let i = 0; i < what.length; i++) hash = Math.imul(hash ^ what.charCodeAt(i), 0x01000193);
  const random = seededRandom(hash ^ (hash >>> 15));
  random();
  return random;
}

/** A technician at work on a trouble: what is seen by what is true, what it takes, what works afterwards. */
export class OnSite {
  minutes = 0;
  lateTrips = 0;
  partTrips = 0;
  faults: readonly WorldFault[];
  private at: Standing = { trunk: '', node: null };
  private ofVisit = 0;
  mendings = 0;
  private readonly spots: ReturnType<typeof walkSpots>;
  private readonly read: ReturnType<typeof readerOf>;

  constructor(
    readonly trouble: Trouble,
    /** What is still wrong once the office has done what it can. */
    faults: readonly WorldFault[],
    private carried: ReadonlySet<string> | 'everything',
  ) {
    this.faults = faults;
    const { truth } = trouble;
    this.read = readerOf(truth);
    this.spots = walkSpots(
      truth,
      truth.trunks.map(({ trunk }) => trunk),
      TIMES,
    );
  }

  get standing(): Standing {
    return this.at;
  }

  get isRestored(): boolean {
    return isRestored(this.trouble, this.faults, this.read);
  }

  /** What the office said, as it says it once something was mended. */
  saidAgain(): Heard[] {
    const { condition } = this.read({ faults: this.faults });
    return this.trouble.heard.map((one) => {
      const { trunk, node, function: name } = one;
      const random = this.chance(`says ${trunk} ${node} ${name}`);
      const outcome = drawOutcome(
        'office',
        condition(trunk, node, name),
        this.trouble.generator,
        random,
      );
      return { ...one, outcome };
    });
  }

  /** What somebody who listens there hears; heard again with nothing mended, the same. */
  listen(point: Point): Outcome {
    const { trunk, node, function: name } = point;
    this.goTo({ trunk, node });
    this.spend(name === 'lamp' ? TIMES.lookAtLamp : TIMES.listen);
    const truly = this.read({ faults: this.faults }).condition(trunk, node, name);
    const random = this.chance(`listen ${trunk} ${node} ${name}`);
    return drawOutcome('technician', truly, this.trouble.generator, random);
  }

  /** The outcome of a check of the walk. */
  check(check: SiteCheck): number {
    this.goTo(check.where);
    this.spend(check.minutes);
    return this.outcomeOf(check);
  }

  /** What is seen beside, at a place that is open. */
  outcomeOf(check: SiteCheck): number {
    const chances = erring(check.chances(this.faults), this.trouble.generator.errors);
    return drawIndex(chances, this.chance(check.key));
  }

  /** Opens a part and mends what is seen there; whether something was taken for faulty. */
  open(part: Part): boolean {
    const place = placeOf(part, this.trouble.drawing);
    this.goTo(place.where);
    this.spend(place.openMinutes);
    const random = chanceOf(this.trouble.seed, `open ${place.key}`);
    const seen = random();
    const there = this.faultsAt(part);
    const { errors } = this.trouble.generator;
    const found = there.filter((one) => seen >= Math.min(0.9, errors * missedByTechnician(one)));
    if (there.length === 0 && random() >= errors * FALSE_CHANCE) return false;
    if (there.length > 0 && found.length === 0) return false;
    this.mend(part, found);
    return true;
  }

  /** What looked sound is made anew all the same. */
  remake(part: Part): void {
    const place = placeOf(part, this.trouble.drawing);
    this.goTo(place.where);
    this.spend(place.openMinutes);
    this.mend(part, this.faultsAt(part));
  }

  private mend(part: Part, found: readonly WorldFault[]): void {
    const place = placeOf(part, this.trouble.drawing);
    if (found.some((one) => this.lacksPartFor(one))) {
      this.partTrips++;
      this.leave();
      this.carried = 'everything';
      this.goTo(place.where);
    }
    const isSetting = found.length > 0 && found.every(isSetByHand);
    this.spend(isSetting ? SET_RIGHT_MINUTES : place.mendMinutes);
    this.faults = this.faults.filter((one) => !found.includes(one));
    this.mendings++;
  }

  /** By the drawing's names: terminals towards a room that is not fed from there are all terminals there. */
  private faultsAt({ place, component }: Part): WorldFault[] {
    const own = this.faults.filter((one) => one.component === component);
    if (place.kind === 'head-end') return own;
    const there = own.filter((one) => 'trunk' in one.place && one.place.trunk === place.trunk);
    if (place.kind === 'port') return there;
    if (place.kind === 'station')
      return there.filter((one) => one.place.kind === 'station' && one.place.node === place.node);
    const spans = there.flatMap((one) =>
      one.place.kind === 'span' ? [{ one, of: one.place }] : [],
    );
    const exact = spans.filter(({ of }) => of.to === place.to);
    if (component !== 'junction-out') return exact.map(({ one }) => one);
    const fromThere = spans.filter(({ of }) => of.from === place.from);
    const towards = fromThere.filter(({ of }) => of.to === place.to);
    return (towards.length > 0 ? towards : fromThere).map(({ one }) => one);
  }

  private lacksPartFor(fault: WorldFault): boolean {
    if (this.carried === 'everything' || isSetByHand(fault)) return false;
    const { carried } = this;
    const { parts } = walkParts([{ faults: [fault], probability: 1 }], this.trouble.truth, TIMES);
    return parts.some(({ id }) => !carried.has(id) && !isInVan(id));
  }

  private goTo(where: Standing): void {
    if (this.ofVisit > MOST_MINUTES_OF_A_VISIT) {
      this.lateTrips++;
      this.leave();
    }
    this.spend(this.spots.minutes[this.spots.spotOf(this.at)]?.[this.spots.spotOf(where)] ?? 0);
    this.at = where;
  }

  /** To come back another day, to the head-end first. */
  private leave(): void {
    this.at = { trunk: '', node: null };
    this.ofVisit = 0;
  }

  private spend(minutes: number): void {
    this.minutes += minutes;
    this.ofVisit += minutes;
  }

  private chance(what: string): () => number {
    return chanceOf(this.trouble.seed, `${this.mendings} ${what}`);
  }
}

function isInVan(part: string): boolean {
  const metres = /^(\d+) m of /.exec(part)?.[1];
  return metres === undefined ? VAN.includes(part) : Number(metres) <= VAN_CABLE_METRES;
}

/** All that was missed works again. */
export function isRestored(
  { missed }: Trouble,
  faults: readonly WorldFault[],
  read: ReturnType<typeof readerOf>,
): boolean {
  const { condition } = read({ faults });
  return missed.every((one) => condition(one.trunk, one.node, one.function) === 'good');
}

/** Where a part is opened, and how long that takes. */
export function placeOf(part: Part, drawing: Trouble['drawing']): OpenedPlace {
  const saying = { words: WORDS, nameNode: nameNodesOf(drawing, WORDS), times: TIMES };
  return openedPlace({ ...part, mode: '' }, drawing, saying);
}

/** The parts of what feeds a node, from the node towards the head-end, and the head-end last. */
export function partsUpFrom(
  { trunks }: Trouble['drawing'],
  point: Pick<Point, 'trunk' | 'node'>,
): Part[] {
  const { trunk } = point;
  const { nodes } = trunks.find((one) => one.trunk === trunk)!;
  const parts: Part[] = [
    { place: { kind: 'station', trunk, node: point.node }, component: 'station' },
  ];
  for (let at = nodes.find(({ node }) => node === point.node); at !== undefined;) {
    parts.push(...partsOfSpan(trunk, at));
    const { fedFrom } = at;
    at = nodes.find(({ node }) => node === fedFrom);
  }
  const headEnd: Part = { place: { kind: 'head-end' }, component: 'head-end' };
  return [...parts, { place: { kind: 'port', trunk }, component: 'port' }, headEnd];
}

/** From its end back to where it comes from. */
export function partsOfSpan(
  trunk: string,
  { node, fedFrom }: { node: string; fedFrom: string | null },
): Part[] {
  const place = { kind: 'span', trunk, from: fedFrom, to: node } as const;
  return (['junction-in', 'cable', 'junction-out'] as const).map((component) => ({
    place,
    component,
  }));
}

/**
 * The last resort, whoever works: where the trouble was thought to be, all is made anew, looked sound or not, with several
 * rooms missed the head-end's modules too; then what feeds
 * the rooms that are missed is looked at, from the room to the head-end; then the rest of what may be; and made anew in that
 * order.
 */
export function searchAll(
  work: OnSite,
  wasOpen: (part: Part) => boolean,
  near: Pick<Point, 'trunk' | 'node'> | undefined,
): void {
  const { drawing, missed } = work.trouble;
  const points = near === undefined ? missed : [near, ...missed];
  const ofPaths = points.map((point) => partsUpFrom(drawing, point));
  const names = new Set(missed.map(({ trunk }) => trunk));
  const ofTrunks = drawing.trunks
    .filter(({ trunk }) => names.has(trunk))
    .flatMap(({ trunk, nodes }) =>
      nodes.flatMap((node) => [
        ...partsOfSpan(trunk, node),
        ...(node.kind === 'station'
          ? [{ place: { kind: 'station', trunk, node: node.node }, component: 'station' } as const]
          : []),
      ]),
    );
  const all = [
    ...new Map(
      [...ofPaths.flat(), ...ofTrunks].map((part) => [JSON.stringify(part), part]),
    ).values(),
  ];
  const [unit, ...span] = all.slice(0, PARTS_OF_A_ROOM);
  const isOneRoom = new Set(missed.map(({ node }) => node)).size === 1;
  const atHeadEnd = all.filter(({ component }) => component === 'port' || component === 'head-end');
  const nearest = isOneRoom ? [unit!, ...span] : [...span, unit!, ...atHeadEnd];
  const steps = [
    ...nearest.map((part) => () => work.remake(part)),
    ...all.filter((part) => !wasOpen(part)).map((part) => () => work.open(part)),
    ...all.map((part) => () => work.remake(part)),
  ];
  for (const step of steps) {
    if (work.isRestored) return;
    step();
  }
}

/** The unit, and the span before it. */
const PARTS_OF_A_ROOM = 4;
