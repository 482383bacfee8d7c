import type { Core } from '../../plan/cores.js';
import type { DrawingCheck } from './drawing-check.js';
import type { JsonReader } from './json-reader.js';
import {
  MAX_LOOPS_OF_ONE_CORE,
  MAX_LOOP_OHMS,
  MAX_READINGS,
  MAX_SOURCE_VOLTS,
  MAX_VOLTS_OF_ONE_TRUNK,
  MIN_UNCERTAINTY_OHMS,
  MIN_UNCERTAINTY_VOLTS,
  READING_REACH,
} from './limits.js';
import {
  type Continuity,
  type Electrical,
  type LoopOhms,
  READING_KINDS,
  type RequestReading,
  type SupplyVolts,
} from './locate-request.js';
import { longestLoopOhms } from './longest-loop-ohms.js';

/** What readings are checked against; `check` undefined where the drawing could not be read or its feeds are wrong. */
export interface Installation {
  check: DrawingCheck | undefined;
  electrical: Required<Electrical> | undefined;
}

type Fields = Record<string, unknown>;

const FIELDS: Record<RequestReading['kind'], readonly string[]> = {
  'supply-volts': ['kind', 'trunk', 'node', 'volts', 'uncertaintyVolts'],
  'loop-ohms': ['kind', 'trunk', 'core', 'ohms', 'uncertaintyOhms'],
  continuity: ['kind', 'trunk', 'from', 'to', 'cores', 'passes'],
};

/** One reading of the wire form, and what is wrong with it. */
class ReadingReader {
  constructor(
    private readonly reader: JsonReader,
    private readonly installation: Installation,
  ) {}

  read(value: unknown, at: string): RequestReading | undefined {
    const known = [...new Set(Object.values(FIELDS).flat())];
    const fields = this.reader.object(value, at, known);
    if (!fields) return undefined;
    const kind = this.reader.oneOf(fields.kind, `${at}/kind`, READING_KINDS);
    if (!kind) return undefined;
    for (const field of Object.keys(fields))
      if (known.includes(field) && !FIELDS[kind].includes(field))
        this.reader.error(`${at}/${field}`, `is no field of a reading of kind ${kind}`);
    const trunk = this.reader.id(fields.trunk, `${at}/trunk`);
    if (trunk === undefined) return undefined;
    if (kind === 'supply-volts') return this.volts(fields, at, trunk);
    return kind === 'loop-ohms' ? this.loop(fields, at, trunk) : this.continuity(fields, at, trunk);
  }

  private volts(fields: Fields, at: string, trunk: string): SupplyVolts | undefined {
    const node = this.reader.id(fields.node, `${at}/node`);
    if (node !== undefined) this.installation.check?.checkNode(at, trunk, node, 'node');
    const most =
      READING_REACH * (this.suppliedBy(at, 'supply-volts')?.sourceVolts ?? MAX_SOURCE_VOLTS);
    // A meter's zero is off by a little, and its leads may be crossed.
    const volts = this.reader.number(fields.volts, `${at}/volts`, -most, most);
    const uncertaintyVolts = this.uncertainty(fields, at, 'uncertaintyVolts', most);
    if (node === undefined || volts === undefined || uncertaintyVolts === undefined)
      return undefined;
    return { kind: 'supply-volts', trunk, node, volts, uncertaintyVolts };
  }

  private loop(fields: Fields, at: string, trunk: string): LoopOhms | undefined {
    const core = this.reader.oneOf(fields.core, `${at}/core`, this.reader.plan.loopCores);
    this.installation.check?.checkTrunk(at, trunk);
    const most = READING_REACH * this.longestLoop(at, trunk);
    const ohms = this.reader.number(fields.ohms, `${at}/ohms`, 0, most);
    const uncertaintyOhms = this.uncertainty(fields, at, 'uncertaintyOhms', most);
    if (core === undefined || ohms === undefined || uncertaintyOhms === undefined) return undefined;
    return { kind: 'loop-ohms', trunk, core, ohms, uncertaintyOhms };
  }

  private continuity(fields: Fields, at: string, trunk: string): Continuity | undefined {
    const to = this.reader.id(fields.to, `${at}/to`);
    const from =
      fields.from === undefined || fields.from === null
        ? null
        : this.reader.id(fields.from, `${at}/from`);
    const cores = this.cores(fields.cores, `${at}/cores`);
    const { passes } = fields;
    if (typeof passes !== 'boolean')
      this.reader.refuse(passes, `${at}/passes`, 'must be true or false');
    if (to !== undefined && from !== undefined) this.checkPath(at, trunk, from, to);
    if (to === undefined || from === undefined || typeof passes !== 'boolean') return undefined;
    return { kind: 'continuity', trunk, from, to, cores, passes };
  }

  private cores(value: unknown, at: string): Core[] {
    const { cores } = this.reader.plan;
    const read = (item: unknown, where: string) => this.reader.oneOf(item, where, cores);
    return this.reader.distinct(value, at, cores.length, read, 1);
  }

  private uncertainty(
    fields: Fields,
    at: string,
    name: 'uncertaintyVolts' | 'uncertaintyOhms',
    most: number,
  ): number | undefined {
    const least = name === 'uncertaintyVolts' ? MIN_UNCERTAINTY_VOLTS : MIN_UNCERTAINTY_OHMS;
    return this.reader.number(fields[name], `${at}/${name}`, least, Math.max(least, most));
  }

  private suppliedBy(at: string, kind: string): Required<Electrical> | undefined {
    const { electrical } = this.installation;
    // What is given but wrong has been named already.
    const isNamed = this.reader.errors.some(({ pointer }) => pointer.startsWith('/electrical'));
    if (!electrical && !isNamed)
      this.reader.error('/electrical', `is needed: ${at} is a reading of kind ${kind}`);
    return electrical;
  }

  private longestLoop(at: string, trunk: string): number {
    const electrical = this.suppliedBy(at, 'loop-ohms');
    const drawn = this.installation.check?.drawing.treeOf(trunk);
    if (!electrical || !drawn) return MAX_LOOP_OHMS;
    const ohms = longestLoopOhms(drawn, electrical);
    if (ohms > 0) return ohms;
    this.reader.error(`${at}/ohms`, 'tells no distance: the trunk has no metres of cable');
    return MAX_LOOP_OHMS;
  }

  private checkPath(at: string, trunk: string, from: string | null, to: string): void {
    const { check } = this.installation;
    if (!check?.checkNode(at, trunk, to, 'to') || from === null) return;
    if (!check.checkNode(at, trunk, from, 'from')) return;
    const above = check.drawing.pathTo(trunk, to).slice(0, -1);
    if (!above.some(({ id }) => id === from))
      this.reader.error(
        `${at}/from`,
        `"${from}" is not on the path from the head-end to "${to}": it must be nearer to the head-end`,
      );
  }
}

/** Readings of the wire form. */
export function readReadings(
  reader: JsonReader,
  value: unknown,
  installation: Installation,
): RequestReading[] {
  if (value === undefined) return [];
  const list = reader.array(value, '/readings', MAX_READINGS) ?? [];
  const one = new ReadingReader(reader, installation);
  const counts = new Map<string, number>();
  return list.flatMap((item, r) => {
    const read = one.read(item, `/readings/${r}`);
    const most = read && mostAlike(read);
    if (!most) return read ?? [];
    const count = (counts.get(most.key) ?? 0) + 1;
    counts.set(most.key, count);
    if (count > most.allowed)
      reader.error(`/readings/${r}`, `at most ${most.allowed} ${most.of} are allowed`);
    return read;
  });
}

/** How many readings like this one there may be. */
function mostAlike(reading: RequestReading) {
  const { trunk } = reading;
  if (reading.kind === 'supply-volts')
    return {
      key: JSON.stringify([trunk]),
      allowed: MAX_VOLTS_OF_ONE_TRUNK,
      of: 'supply voltages of one trunk',
    };
  if (reading.kind === 'loop-ohms')
    return {
      key: JSON.stringify([trunk, reading.core]),
      allowed: MAX_LOOPS_OF_ONE_CORE,
      of: 'loop readings of one core of one trunk',
    };
  return undefined;
}
