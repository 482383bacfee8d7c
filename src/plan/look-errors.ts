import type { InformantKind } from './error-rates.js';
import type { Plan } from './plan.js';

/** How a part that somebody looked at was found. */
export const SEEN = ['sound', 'faulty'] as const;

/** What one can look at in a span. */
export const SPAN_PARTS = ['junction-out', 'cable', 'junction-in'] as const;

/** What is missed more often, whatever the system: most of a cable is out of sight, a bad joint often looks like a good one. */
const CABLE_MISSED = 0.5;
const BAD_JOINT_MISSED_BY_TECHNICIAN = 0.3;
const UNIT_MISSED_BY_OFFICE = 0.5;

/** Of what comes and goes, a look misses half at least. */
export const PASSING_MISSED = 0.5;

const WHOLE_PARTS: readonly string[] = SPAN_PARTS;

function isCovered({ station }: Plan, part: string, mode: string): boolean {
  if (mode === 'ok') return false;
  if (WHOLE_PARTS.includes(part)) return true;
  return part === 'unit' ? station[mode]?.isSetting !== true : part === mode;
}

/** Chance that who looks at a part misses this mode there, `usual` where nothing makes it harder; null if the part shows nothing of the mode. */
export function missedChance(
  plan: Plan,
  kind: InformantKind,
  part: string,
  mode: string,
  usual = plan.looks[kind].missed,
): number | null {
  if (!isCovered(plan, part, mode)) return null;
  const effect = plan.span[mode];
  let missed = usual;
  if (part === 'cable') missed = Math.max(missed, CABLE_MISSED);
  if (effect && 'weakens' in effect && kind === 'technician')
    missed = Math.max(missed, BAD_JOINT_MISSED_BY_TECHNICIAN);
  if (part === 'unit' && kind === 'office') missed = Math.max(missed, UNIT_MISSED_BY_OFFICE);
  return missed;
}
