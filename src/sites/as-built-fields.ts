import {
  MAX_CORE_OHMS_PER_KM,
  MAX_SOURCE_OHMS,
  MAX_STATION_AMPS,
  MIN_CORE_OHMS_PER_KM,
} from '../locator/index.js';
import { type FunctionName, FUNCTIONS } from '../plan/functions.js';
import { isDay } from '../shared/is-day.js';
import { NODE_KINDS } from '../drawing/drawn-node.js';
import type { HeadEnd, RecordNode, RecordTrunk } from './as-built.js';

/** What a value means, or why it cannot be one. */
type Parsed<T> = { value: T } | { reason: string };

type Reader<T> = (raw: unknown) => Parsed<T>;

export type Readers<T> = { [Field in keyof T]: Reader<T[Field]> };

const LONGEST_SPAN_METRES = 2000;

/** Groups of one station. */
export const MOST_GROUPS = 20;

/** A node as it was given: what is not known of its cable is yet to be guessed. */
export interface GivenNode extends Omit<RecordNode, 'cableMetres'> {
  cableMetres: number | null;
}

/** One line of text: runs of white space and line breaks are one space; blank is null. */
export function tidyText(text: string): string | null {
  return text.normalize('NFC').replaceAll(/\s+/g, ' ').trim() || null;
}

/** Drops case, white space, hyphens and underscores, so that "Fed_From" and "fed from" are one word. */
export function plainWord(text: string): string {
  return text
    .normalize('NFC')
    .toLowerCase()
    .replaceAll(/[\s_-]/g, '');
}

export const HEAD_END_WORD = 'head-end';

export function isHeadEndWord(text: string): boolean {
  return plainWord(text) === plainWord(HEAD_END_WORD);
}

function text(longest: number): Reader<string | null> {
  return (raw) => {
    if (raw === undefined || raw === null) return { value: null };
    if (typeof raw !== 'string') return { reason: 'must be a text' };
    const value = tidyText(raw);
    if (value === null) return { value };
    if (value.length > longest) return { reason: `is longer than ${longest} characters` };
    if (/\p{Cc}/u.test(value)) return { reason: 'has a control character in it' };
    return { value };
  };
}

/** A code goes into addresses, is told on the telephone, and stands in a sheet's cell. */
const readCode: Reader<string> = (raw) => {
  const read = text(20)(raw);
  if ('reason' in read) return read;
  const { value } = read;
  if (value === null) return { reason: 'is missing' };
  if (!/^[\p{L}\p{N}][\p{L}\p{N}\p{M} ._-]*$/u.test(value)) {
    return {
      reason:
        'may hold only letters, digits, spaces, dots, hyphens and underscores, and starts with a letter or digit',
    };
  }
  if (isHeadEndWord(value)) return { reason: 'is the word for the head-end, not a code' };
  return { value };
};

const readKind: Reader<RecordNode['kind']> = (raw) => {
  if (raw === undefined || raw === null) return { value: 'station' };
  const kind = NODE_KINDS.find((each) => each === raw);
  return kind ? { value: kind } : { reason: `must be ${NODE_KINDS.join(' or ')}` };
};

const readMetres: Reader<number | null> = (raw) => {
  if (raw === undefined || raw === null) return { value: null };
  if (typeof raw !== 'number' || !Number.isFinite(raw))
    return { reason: 'is not a length in metres' };
  if (raw < 0) return { reason: 'is a negative length' };
  if (raw === 0) return { reason: 'is no length: even two boxes back to back have some cable' };
  if (raw > LONGEST_SPAN_METRES) {
    return { reason: `is more than the ${LONGEST_SPAN_METRES} m that one span can be` };
  }
  if (Math.round(raw * 100) / 100 !== raw) return { reason: 'is finer than whole centimetres' };
  return { value: raw };
};

const readVolts: Reader<number | null> = (raw) => {
  if (raw === undefined || raw === null) return { value: null };
  if (typeof raw !== 'number' || !(raw > 0 && raw <= 1000)) {
    return { reason: 'must be a number of volts, more than 0 and at most 1000' };
  }
  return { value: raw };
};

function figure(unit: string, least: number, most: number): Reader<number | null> {
  return (raw) => {
    if (raw === undefined || raw === null) return { value: null };
    if (typeof raw !== 'number' || !(raw >= least && raw <= most)) {
      return { reason: `must be a number of ${unit} from ${least} to ${most}` };
    }
    return { value: raw };
  };
}

const readDate: Reader<string | null> = (raw) => {
  const read = text(100)(raw);
  if ('reason' in read || read.value === null) return read;
  return isDay(read.value)
    ? read
    : { reason: 'is not a date written as year-month-day, such as 2024-05-03' };
};

const readYesOrNo: Reader<boolean> = (raw) => {
  if (raw === undefined || raw === null) return { value: false };
  return typeof raw === 'boolean' ? { value: raw } : { reason: 'must be yes or no' };
};

/** Each only once, however its case; a comma or semicolon parts them in a sheet. */
const readGroups: Reader<string[]> = (raw) => {
  if (raw === undefined || raw === null) return { value: [] };
  if (!Array.isArray(raw)) return { reason: 'must be a list of names' };
  if (raw.length > MOST_GROUPS) return { reason: `has more than ${MOST_GROUPS} names` };
  const groups = new Map<string, string>();
  for (const each of raw as unknown[]) {
    const read = text(100)(each);
    if ('reason' in read) return { reason: `holds a name that ${read.reason}` };
    if (read.value === null) return { reason: 'holds a name that is missing' };
    if (/[,;]/.test(read.value)) return { reason: 'holds a name with a comma or semicolon in it' };
    const word = read.value.toLowerCase();
    if (groups.has(word)) return { reason: `has ${read.value} twice` };
    groups.set(word, read.value);
  }
  return { value: [...groups.values()] };
};

const readLacks: Reader<FunctionName[]> = (raw) => {
  if (raw === undefined || raw === null) return { value: [] };
  if (!Array.isArray(raw)) return { reason: 'must be a list of functions' };
  const given: unknown[] = raw.slice(0, FUNCTIONS.length + 1);
  const unknown = given.find((each) => !FUNCTIONS.some((name) => name === each));
  if (unknown !== undefined) {
    return { reason: `holds what is no function; there are ${FUNCTIONS.join(', ')}` };
  }
  if (new Set(given).size < raw.length) return { reason: 'has a function twice' };
  return { value: FUNCTIONS.filter((name) => given.includes(name)) };
};

interface NodeField<T> {
  /** What its column in a sheet is called. */
  column: string;
  read: Reader<T>;
  /** A plain text, which a sheet has as it is. */
  isText?: boolean;
  /** A junction box has none. */
  ofStations?: boolean;
}

function plainText(column: string): NodeField<string | null> {
  return { column, read: text(100), isText: true };
}

/** A node's own fields in the order of a sheet's columns; what they mean together is checked by `checkAsBuilt`. */
export const NODE_FIELDS: { [Field in keyof GivenNode]: NodeField<GivenNode[Field]> } = {
  node: { column: 'node', read: readCode },
  kind: { column: 'kind', read: readKind },
  fedFrom: { column: 'fed from', read: text(20) },
  cableType: plainText('cable type'),
  cableMetres: { column: 'cable metres', read: readMetres },
  isLengthGuessed: { column: 'length guessed', read: readYesOrNo },
  room: { ...plainText('room'), ofStations: true },
  block: plainText('block'),
  floor: plainText('floor'),
  unitModel: { ...plainText('unit model'), ofStations: true },
  unitSerial: { ...plainText('unit serial'), ofStations: true },
  unitInstalledOn: { column: 'installed on', read: readDate, ofStations: true },
  groups: { column: 'groups', read: readGroups, ofStations: true },
  isOut: { column: 'is out', read: readYesOrNo, ofStations: true },
  lacks: { column: 'lacks', read: readLacks, ofStations: true },
};

const nodeFields = Object.entries(NODE_FIELDS) as [keyof GivenNode, NodeField<unknown>][];

export function nodeFieldsThat(is: 'isText' | 'ofStations'): (keyof GivenNode)[] {
  return nodeFields.filter(([, field]) => field[is] === true).map(([name]) => name);
}

export const nodeReaders = Object.fromEntries(
  nodeFields.map(([name, { read }]) => [name, read]),
) as Readers<GivenNode>;

/**
 * A station of which nothing is known but its code and its span.
 * @internal for tests, which a new field then leaves alone
 */
export function blankNode(node: string, cableMetres = 10): RecordNode {
  const values = nodeFields.map(([name, { read }]) => {
    const parsed = read(undefined);
    return [name, 'value' in parsed ? parsed.value : null];
  });
  return { ...(Object.fromEntries(values) as RecordNode), node, cableMetres };
}

export const trunkReaders: Readers<Omit<RecordTrunk, 'nodes'>> = {
  trunk: readCode,
  name: (raw) => {
    const read = text(100)(raw);
    return 'reason' in read ? read : { value: read.value ?? '' };
  },
  port: text(50),
};

export const headEndReaders: Readers<HeadEnd> = {
  model: text(100),
  serial: text(100),
  place: text(200),
  installedOn: readDate,
  supplyVolts: readVolts,
  supplyOhms: figure('ohms', 0, MAX_SOURCE_OHMS),
  stationAmps: figure('amps', 0, MAX_STATION_AMPS),
  coreOhmsPerKm: figure('ohms per km', MIN_CORE_OHMS_PER_KM, MAX_CORE_OHMS_PER_KM),
};

export const changeReaders: Readers<{ changedBy: string; reason: string }> = {
  changedBy: required(text(200)),
  reason: required(text(500)),
};

function required(reader: Reader<string | null>): Reader<string> {
  return (raw) => {
    const read = reader(raw);
    if ('reason' in read) return read;
    return read.value === null ? { reason: 'is missing' } : { value: read.value };
  };
}
