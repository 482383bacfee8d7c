import { DEFAULT_PLAN } from './default-plan.js';

export type Core = (typeof DEFAULT_PLAN.cores)[number];

/** The cores that a loop with the return can be measured of. */
export type LoopCore = Exclude<Core, typeof DEFAULT_PLAN.return>;

/** The cores of the default plan. */
export const CORES: readonly Core[] = DEFAULT_PLAN.cores;

/**
 * A set of cores as bits. What the physics speaks of has one bit in every plan, SUPPLY and RETURN; the other cores have
 * those between, in the plan's order.
 */
export type CoreSet = number;

export const MAX_CORES = 4;
export const SUPPLY: CoreSet = 1;
export const RETURN: CoreSet = 8;
/** Every bit, whether the plan has a core there or not. */
export const ALL_CORES: CoreSet = 15;
