import type { ErrorRates, InformantKind } from './error-rates.js';

/** What a fault mode of a junction or of a cable does to the cores there: one thing. */
export type SpanFault =
  | { readonly parts: true }
  | { readonly opens: string }
  /** To the return. */
  | { readonly shorts: string }
  /** A bad joint in the supply pair: the feed below is weak. At most one mode does this. */
  | { readonly weakens: true };

/** What a fault mode of the head-end does everywhere, or in its group of stations. */
export interface HeadEndFault {
  readonly disables: readonly string[];
  /** It takes the supply from every trunk, and with it every function. */
  readonly takesSupply?: true;
  /**
   * Share of such faults that a look at the head-end's front shows, the others being inside; left out, nobody in the
   * office can look for it.
   */
  readonly shown?: number;
}

/** What a fault mode of a station does there. */
export interface StationFault {
  readonly disables: readonly string[];
  /** It shorts the supply to the return there and by itself disables nothing. At most one mode does this. */
  readonly shortsSupply?: true;
  /** Somebody may have set it so: who looks at the unit does not see it, only who looks at the setting. */
  readonly isSetting?: true;
  /** A knob turned down: turned up, it is mended. At most one mode is this. */
  readonly isVolume?: true;
}

/** Faults per year, by mode; cable per metre and year; of a group's mode that of each group. */
export interface PlanRates {
  readonly headEnd: Readonly<Record<string, number>>;
  readonly port: Readonly<Record<string, number>>;
  readonly station: Readonly<Record<string, number>>;
  readonly junction: Readonly<Record<string, number>>;
  readonly cablePerMetre: Readonly<Record<string, number>>;
}

/** What a look misses, and how often it takes what is sound for faulty (fault model, section 4, "Looks"). */
export interface LookErrors {
  readonly missed: number;
  readonly false: number;
}

/**
 * A kind of system: its cable, what it can do, what may fail in it and how often (fault model, sections 1, 2 and 4). Of
 * what holds for every system (what travels on a trunk, what a short hides) nothing is here.
 */
export interface Plan {
  readonly name: string;
  /** Two to MAX_CORES, in the order in which answers name them. */
  readonly cores: readonly string[];
  /** The cores that every function needs; shorts are to the return. */
  readonly supply: string;
  readonly return: string;
  /** By function, the cores it needs. Of any two functions one needs all that the other needs, or the same. */
  readonly functions: Readonly<Record<string, readonly string[]>>;
  readonly headEnd: Readonly<Record<string, HeadEndFault>>;
  /** Modes of the head-end of which there is one for each group of stations. */
  readonly headEndOfGroup: Readonly<Record<string, HeadEndFault>>;
  /** The one fault mode of a port: it takes the supply from its trunk. */
  readonly port: string;
  readonly station: Readonly<Record<string, StationFault>>;
  /** Modes of junctions and of cables, which share names and effects. */
  readonly span: Readonly<Record<string, SpanFault>>;
  readonly rates: PlanRates;
  readonly errors: ErrorRates;
  readonly looks: Readonly<Record<InformantKind, LookErrors>>;
  /** Minutes that trying each function at a station takes who is near it or can ring somebody there. */
  readonly minutes: Readonly<Record<InformantKind, Readonly<Record<string, number>>>>;
}

/** Modes of one kind of component, and functions: they are bits of a number. */
export const MAX_MODES = 24;

/** A plan that cannot be computed with, and why. */
export class InvalidPlan extends Error {
  override readonly name = 'InvalidPlan';
  constructor(
    plan: string,
    readonly reasons: readonly string[],
  ) {
    super(`plan "${plan}": ${reasons.join('; ')}`);
  }
}
