import type { Place } from '../drawing/drawn-node.js';
import type { FunctionName } from '../plan/functions.js';
import { placeOn } from '../sites/check-place.js';
import { type DrawnRecord, drawingOf, findNode, speaks } from '../sites/drawing.js';

/** All that stands of what was said on a ticket, as far as it has a place. */
export interface SaidAtPlaces {
  heard: readonly HeardAt[];
  readings: readonly ReadAt[];
  looks: readonly SeenAt[];
  findings: readonly { id: string; place: Place | null }[];
}

interface HeardAt {
  id: string;
  trunk: string;
  node: string;
  function: FunctionName;
  disconnectedBelow: string | null;
}

interface ReadAt {
  id: string;
  trunk: string | null;
  node: string | null;
  /** Of a test of continuity: where it begins; null: at the head-end. */
  from: string | null;
}

interface SeenAt {
  id: string;
  place: Place;
  group: string | null;
}

/** Something that was said whose place a newer record does not have any more. */
export interface LostPlace {
  kind: 'observation' | 'reading' | 'look' | 'finding';
  id: string;
  /** Null of the head-end, and of one of its groups. */
  trunk: string | null;
  /** Of a stretch the node that it leads to; null of a whole trunk. */
  node: string | null;
  /** A group of stations that nobody is in any more. */
  group: string | null;
}

/**
 * What has a place by the record `before` and none, or another one, by `after`: the node is gone, is another room's, cannot do
 * what was heard there, or another cable leads to it. What had no place before is not lost.
 */
export function lostPlaces(
  said: SaidAtPlaces,
  before: DrawnRecord,
  after: DrawnRecord,
): LostPlace[] {
  const change = new RecordChange(before, after);
  const lost: LostPlace[] = [];
  const lose = (kind: LostPlace['kind'], id: string, at: Partial<LostPlace>) =>
    lost.push({
      kind,
      id,
      trunk: at.trunk ?? null,
      node: at.node ?? null,
      group: at.group ?? null,
    });
  for (const one of said.heard)
    if (change.losesHeard(one)) lose('observation', one.id, { trunk: one.trunk, node: one.node });
  for (const one of said.readings)
    if (change.losesReading(one)) lose('reading', one.id, { trunk: one.trunk, node: one.node });
  for (const { id, place, group } of said.looks) {
    if (change.losesGroup(group)) lose('look', id, { group });
    else if (change.losesPlace(place) || change.isOutNow(place)) lose('look', id, ends(place));
  }
  for (const { id, place } of said.findings)
    if (place !== null && change.losesPlace(place)) lose('finding', id, ends(place));
  return lost;
}

function ends(place: Place): Partial<LostPlace> {
  switch (place.kind) {
    case 'head-end':
      return {};
    case 'port':
      return { trunk: place.trunk };
    case 'station':
      return { trunk: place.trunk, node: place.node };
    case 'span':
      return { trunk: place.trunk, node: place.to };
  }
}

class RecordChange {
  private readonly groupsBefore: ReadonlySet<string>;
  private readonly groupsAfter: ReadonlySet<string>;

  constructor(
    private readonly before: DrawnRecord,
    private readonly after: DrawnRecord,
  ) {
    this.groupsBefore = groupsOf(before);
    this.groupsAfter = groupsOf(after);
  }

  losesHeard({ trunk, node, function: name, disconnectedBelow }: HeardAt): boolean {
    if (this.losesNode(trunk, node)) return true;
    if (disconnectedBelow !== null && this.losesNode(trunk, disconnectedBelow)) return true;
    const was = findNode(this.before, trunk, node);
    const is = findNode(this.after, trunk, node);
    return was !== undefined && is !== undefined && speaks(was, name) && !speaks(is, name);
  }

  losesReading({ trunk, node, from }: ReadAt): boolean {
    if (trunk === null) return false;
    if (this.losesTrunk(trunk)) return true;
    if (node === null) return false;
    if (this.losesNode(trunk, node)) return true;
    if (from === null) return false;
    return this.losesNode(trunk, from) || this.losesStretch(trunk, from, node);
  }

  losesGroup(group: string | null): boolean {
    return group !== null && this.groupsBefore.has(group) && !this.groupsAfter.has(group);
  }

  losesPlace(place: Place): boolean {
    switch (place.kind) {
      case 'head-end':
        return false;
      case 'port':
        return this.losesTrunk(place.trunk);
      case 'station':
        return this.losesNode(place.trunk, place.node);
      case 'span':
        return this.losesSpan(place);
    }
  }

  /** A unit that was bridged over or taken out since cannot be looked at. */
  isOutNow(place: Place): boolean {
    if (place.kind !== 'station') return false;
    const { trunk, node } = place;
    const was = findNode(this.before, trunk, node);
    return was?.isOut !== true && findNode(this.after, trunk, node)?.isOut === true;
  }

  private losesSpan(place: Extract<Place, { kind: 'span' }>): boolean {
    if ('error' in placeOn(this.before, place, '')) return false;
    if ('error' in placeOn(this.after, place, '')) return true;
    const { trunk, from, to } = place;
    return this.losesNode(trunk, to) || (from !== null && this.losesNode(trunk, from));
  }

  private losesTrunk(trunk: string): boolean {
    const has = ({ trunks }: DrawnRecord) => trunks.some((one) => one.trunk === trunk);
    return has(this.before) && !has(this.after);
  }

  private losesNode(trunk: string, node: string): boolean {
    const was = findNode(this.before, trunk, node);
    if (was === undefined) return false;
    const is = findNode(this.after, trunk, node);
    return is === undefined || is.kind !== was.kind || isAnotherRoom(was.room, is.room);
  }

  /** Whether one lay above the other and does not any more. */
  private losesStretch(trunk: string, from: string, to: string): boolean {
    const isAbove = (record: DrawnRecord) =>
      drawingOf(record)
        .pathTo(trunk, to)
        .some(({ id }) => id === from);
    return isAbove(this.before) && !isAbove(this.after);
  }
}

/** A code that was given to another room: what was said of it was said of the room, not of the code. */
function isAnotherRoom(was: string | null, is: string | null): boolean {
  return was !== null && is !== null && plain(was) !== plain(is);
}

function plain(name: string): string {
  return name.trim().toLowerCase().replaceAll(/\s+/g, ' ');
}

function groupsOf({ trunks }: DrawnRecord): ReadonlySet<string> {
  return new Set(trunks.flatMap(({ nodes }) => nodes.flatMap(({ groups = [] }) => groups)));
}
