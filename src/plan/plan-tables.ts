import { ALL_CORES, type Core, type CoreSet, type LoopCore, RETURN, SUPPLY } from './cores.js';
import { checkPlan } from './check-plan.js';
import type { FunctionName, FunctionSet } from './functions.js';
import type {
  GroupMode,
  HeadEndMode,
  HeadEndModeName,
  GroupSetting,
  HeadEndSetting,
  PortMode,
  SiteMode,
  SiteSetting,
  SpanEffect,
  SpanMode,
  StationMode,
} from './modes.js';
import type { HeadEndFault, Plan, SpanFault } from './plan.js';

/**
 * A plan in bit sets and lists. Names have the types of the default plan's, whichever plan it is: the service knows no
 * other, and inside the locator a name is only ever compared, looked up or handed on.
 */
export interface PlanTables {
  readonly plan: Plan;
  readonly cores: readonly Core[];
  /** The bit of each core, and of all. */
  readonly coreBits: readonly CoreSet[];
  readonly allCores: CoreSet;
  /** The cores that a loop with the return can be measured of: those whose short to it is modelled. */
  readonly loopCores: readonly LoopCore[];
  readonly functions: readonly FunctionName[];
  readonly allFunctions: FunctionSet;
  /** By function. */
  readonly coresNeeded: readonly CoreSet[];
  /** Modes of the head-end: those that are everywhere, those of a group, and all. */
  readonly siteModes: readonly SiteMode[];
  readonly groupModes: readonly GroupMode[];
  readonly headEndModes: readonly HeadEndMode[];
  readonly headEndDisables: Readonly<Record<HeadEndMode, FunctionSet>>;
  /** Modes that somebody in the office can look for. */
  readonly settings: readonly SiteSetting[];
  readonly portModes: readonly PortMode[];
  readonly stationModes: readonly StationMode[];
  readonly stationDisables: Readonly<Record<StationMode, FunctionSet>>;
  /** The station's short of the supply; undefined where the plan has none. */
  readonly stationShort: StationMode | undefined;
  /** The station's volume turned down; undefined where the plan has none. */
  readonly volumeMode: StationMode | undefined;
  readonly spanModes: readonly SpanMode[];
  readonly spanEffects: Readonly<Record<SpanMode, SpanEffect>>;
}

const known = new WeakMap<Plan, PlanTables>();

/** @throws InvalidPlan */
export function tablesOf(plan: Plan): PlanTables {
  const found = known.get(plan) ?? makeTables(plan);
  known.set(plan, found);
  return found;
}

function bitsOf({ cores, supply, return: back }: Plan): ReadonlyMap<string, CoreSet> {
  const others = cores.filter((core) => core !== supply && core !== back);
  return new Map([
    [supply, SUPPLY],
    [back, RETURN],
    ...others.map((core, i): [string, CoreSet] => [core, SUPPLY << (i + 1)]),
  ]);
}

/** The same keys, with what is made of each value. */
function mapped<Key extends string, From, To>(
  table: Readonly<Record<string, From>>,
  make: (value: From) => To,
): Record<Key, To> {
  return Object.fromEntries(
    Object.entries(table).map(([key, value]) => [key, make(value)]),
  ) as Record<Key, To>;
}

const keysOf = <Key extends string>(table: object) => Object.keys(table) as Key[];

function makeTables(plan: Plan): PlanTables {
  checkPlan(plan);
  const bits = bitsOf(plan);
  const setOf = (cores: readonly string[]) =>
    cores.reduce((set, core) => set | (bits.get(core) ?? 0), 0);
  const functions = keysOf<FunctionName>(plan.functions);
  const functionsIn = ({ disables }: Pick<HeadEndFault, 'disables'>) =>
    functions.reduce((set, name, f) => (disables.includes(name) ? set | (1 << f) : set), 0);
  const effectOf = (fault: SpanFault): SpanEffect => ({
    removes: 'parts' in fault ? ALL_CORES : 'opens' in fault ? setOf([fault.opens]) : 0,
    shorts: 'shorts' in fault ? setOf([fault.shorts]) : 0,
    weakens: 'weakens' in fault,
  });
  const siteModes = keysOf<SiteMode>(plan.headEnd);
  const groupModes = keysOf<GroupMode>(plan.headEndOfGroup);
  const stationModes = keysOf<StationMode>(plan.station);
  return {
    plan,
    cores: plan.cores as readonly Core[],
    coreBits: plan.cores.map((core) => setOf([core])),
    allCores: setOf(plan.cores),
    loopCores: plan.cores.filter((core): core is LoopCore =>
      Object.values(plan.span).some((fault) => 'shorts' in fault && fault.shorts === core),
    ),
    functions,
    allFunctions: (1 << functions.length) - 1,
    coresNeeded: Object.values(plan.functions).map(setOf),
    siteModes,
    groupModes,
    headEndModes: [...siteModes, ...groupModes],
    headEndDisables: mapped({ ...plan.headEnd, ...plan.headEndOfGroup }, functionsIn),
    settings: siteModes.filter(
      (mode): mode is SiteSetting => plan.headEnd[mode]?.shown !== undefined,
    ),
    portModes: [plan.port as PortMode],
    stationModes,
    stationDisables: mapped(plan.station, functionsIn),
    stationShort: stationModes.find((mode) => plan.station[mode]?.shortsSupply),
    volumeMode: stationModes.find((mode) => plan.station[mode]?.isVolume),
    spanModes: keysOf<SpanMode>(plan.span),
    spanEffects: mapped(plan.span, effectOf),
  };
}

/** A set of functions. */
export function functionSet({ functions }: PlanTables, names: readonly string[]): FunctionSet {
  return functions.reduce((set, name, f) => (names.includes(name) ? set | (1 << f) : set), 0);
}

/** The cores in a set, in the plan's order. */
export function coresIn({ cores, coreBits }: PlanTables, set: CoreSet): Core[] {
  return cores.filter((_, c) => set & (coreBits[c] ?? 0));
}

/** The set of some cores. */
export function coreSet({ cores, coreBits }: PlanTables, names: readonly Core[]): CoreSet {
  return names.reduce((set, name) => set | (coreBits[cores.indexOf(name)] ?? 0), 0);
}

/** What of the head-end somebody in the office can look for, of the modes that a site has. */
export function settingsAmong(
  { plan, settings, groupModes }: PlanTables,
  modes: readonly HeadEndModeName[],
): HeadEndSetting[] {
  const ofGroups = groupModes.filter((kind) => plan.headEndOfGroup[kind]?.shown !== undefined);
  const isOfGroup = (mode: string): mode is GroupSetting =>
    ofGroups.some((kind) => mode.startsWith(`${kind}:`));
  return [...settings, ...modes.filter(isOfGroup)];
}

/** What a head-end mode disables and, of a group's mode, the group that it disables it in. */
export function headEndEffect(
  { groupModes, headEndDisables }: PlanTables,
  name: HeadEndModeName,
): { disables: FunctionSet; group: string | null } {
  const kind = groupModes.find((mode) => name.startsWith(`${mode}:`));
  if (kind) return { disables: headEndDisables[kind], group: name.slice(kind.length + 1) };
  return { disables: headEndDisables[name as SiteMode], group: null };
}
