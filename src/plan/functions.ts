import { DEFAULT_PLAN } from './default-plan.js';

export type FunctionName = keyof typeof DEFAULT_PLAN.functions;

/** What a unit of the default plan can do, and what an observation is about. */
export const FUNCTIONS = Object.keys(DEFAULT_PLAN.functions) as readonly FunctionName[];

/** A set of functions as bits, in the plan's order. */
export type FunctionSet = number;

/** What one function at one station is called where it must be told from the others. */
export function pointKey(point: { trunk: string; node: string; function: string }): string {
  return JSON.stringify([point.trunk, point.node, point.function]);
}
