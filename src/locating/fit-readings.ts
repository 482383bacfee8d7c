import { InvalidLocateRequest, type LocateRequest, type RequestError } from '../locator/index.js';
import type { ChosenReadings, LeftOutReading, TakenReading } from '../readings/taken-reading.js';

/**
 * Works something out with as many of the readings as the locator takes: what it refuses (a node that is no longer drawn,
 * more than its limits) is left out with its reason, the newest are kept longest, and the rest goes on.
 *
 * @throws what `workOut` throws about anything but the readings
 */
export function fitReadings<T>(
  posed: LocateRequest,
  { chosen, leftOut, electrical }: ChosenReadings & Pick<LocateRequest, 'electrical'>,
  workOut: (request: LocateRequest) => T,
): { worked: T; posed: LocateRequest; used: TakenReading[]; leftOut: LeftOutReading[] } {
  let kept = [...chosen].reverse();
  const out = [...leftOut];
  for (;;) {
    const request = withReadings(posed, kept, electrical);
    try {
      return { worked: workOut(request), posed: request, used: [...kept].reverse(), leftOut: out };
    } catch (error) {
      const refused = error instanceof InvalidLocateRequest ? refusedOf(error.errors, kept) : [];
      if (refused.length === 0) throw error;
      out.push(...refused);
      const ids = new Set(refused.map(({ id }) => id));
      kept = kept.filter(({ id }) => !ids.has(id));
    }
  }
}

/** Without any that needs it, the supply is left out: it may be wrong in the record, and says nothing by itself. */
function withReadings(
  posed: LocateRequest,
  kept: TakenReading[],
  electrical: LocateRequest['electrical'],
): LocateRequest {
  if (kept.length === 0) return posed;
  const isSupplyNeeded = kept.some(({ reading }) => reading.kind !== 'continuity');
  return {
    ...posed,
    ...(isSupplyNeeded && { electrical }),
    readings: kept.map(({ reading }) => reading),
  };
}

function refusedOf(
  errors: readonly RequestError[],
  kept: readonly TakenReading[],
): LeftOutReading[] {
  const refused = new Map<string, string>();
  const refuse = (one: TakenReading | undefined, reason: string) => {
    if (one !== undefined && !refused.has(one.id)) refused.set(one.id, reason);
  };
  for (const { pointer, reason } of errors) {
    const [, part, at, field] = pointer.split('/');
    if (part === 'readings' && at !== undefined)
      refuse(kept[Number(at)], field === undefined ? reason : `${field}: ${reason}`);
    else if (part === 'readings') refuse(kept.at(-1), reason);
    else if (part === 'electrical')
      for (const one of kept) if (one.reading.kind !== 'continuity') refuse(one, reason);
  }
  return [...refused].map(([id, reason]) => ({ id, why: { kind: 'refused', reason } }));
}
