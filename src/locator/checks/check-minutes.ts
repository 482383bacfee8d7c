import type { CheckAction } from './check-action.js';
import type { Plan } from '../../plan/plan.js';

/** Minutes that each kind of check takes, without the way there. */
export interface CheckMinutes {
  readonly function: Readonly<Record<string, number>>;
  readonly volumeKnob: number;
  readonly headEnd: number;
  readonly supplyVolts: number;
  readonly continuity: number;
  readonly openJunction: number;
  readonly isolation: number;
}

/**
 * Starting values, invented, to be replaced by a firm's own record. For the office: somebody is near each room or can be
 * rung there, so that no room is farther than another, and the head-end stands beside the desk.
 */
export function officeMinutes({ minutes }: Plan): CheckMinutes {
  return {
    function: minutes.office,
    volumeKnob: 3,
    headEnd: 1,
    supplyVolts: Infinity,
    continuity: Infinity,
    openJunction: Infinity,
    isolation: Infinity,
  };
}

/** The same for a technician who stands at the place, meter in hand: invented starting values. */
export function technicianMinutes({ minutes }: Plan): CheckMinutes {
  return {
    function: minutes.technician,
    volumeKnob: 2,
    headEnd: 1,
    supplyVolts: 3,
    continuity: 8,
    openJunction: 6,
    isolation: 10,
  };
}

export function minutesOf(action: CheckAction, minutes: CheckMinutes): number {
  switch (action.kind) {
    case 'function':
      return minutes.function[action.function] ?? Infinity;
    case 'volume-knob':
      return minutes.volumeKnob;
    case 'head-end':
      return minutes.headEnd;
    case 'supply-volts':
      return minutes.supplyVolts;
    case 'continuity':
      return minutes.continuity;
    case 'open-junction':
      return minutes.openJunction;
    case 'isolation':
      return minutes.isolation;
  }
}
