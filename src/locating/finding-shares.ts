import type { LocateResult, Place } from '../locator/index.js';
import { type EventShare, splitFinding } from '../statistics/split-finding.js';
import { placeParts } from '../history/work-done.js';

/**
 * What was found at a place as events for the rates: one in all, whole if component and mode were named, else by the
 * chances that the faults that stay had when it was found. None where nothing possible fits.
 */
export function findingShares(
  place: Place,
  found: { component?: string | null; mode?: string | null },
  result: Pick<LocateResult, 'places'>,
): EventShare[] {
  const key = placeParts(place).join();
  const there = result.places.find((one) => placeParts(one.place).join() === key);
  const component = found.component ?? undefined;
  const mode = found.mode ?? undefined;
  const posterior = (there?.components ?? []).flatMap((one) =>
    Object.entries(one.modes)
      .filter(([name]) => name !== 'ok')
      .map(([name, probability]) => ({ component: one.component, mode: name, probability })),
  );
  const fits = posterior.some(
    (one) =>
      one.probability > 0 &&
      one.component === (component ?? one.component) &&
      one.mode === (mode ?? one.mode),
  );
  const isNamed = component !== undefined && mode !== undefined;
  return fits || isNamed ? splitFinding(posterior, { component, mode }) : [];
}
