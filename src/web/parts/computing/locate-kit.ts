import {
  type ErrorRates,
  type ExpectedFaults,
  locate,
  type LocateRequest,
  type LocateResult,
  type RequestObservation,
} from '#app/locator/index.js';

/** Of a ticket's kit, what the locator takes. */
export interface LocatedKit {
  request: object;
  expectedFaults: object;
  errorRates: object;
}

export type Supposed = Pick<RequestObservation, 'trunk' | 'node' | 'function' | 'outcome'>;

/** The locator's answer to a kit as it is: to the last digit the service's own. */
export function locateKit(kit: LocatedKit, explanations: number): LocateResult {
  const request = { ...(kit.request as LocateRequest), explanations };
  return locate(request, kit.errorRates as ErrorRates, kit.expectedFaults as ExpectedFaults);
}

/**
 * The same if a technician had also seen what is supposed, in place of what was said there of the function.
 */
export function locateSupposing(kit: LocatedKit, supposed: readonly Supposed[]): LocateResult {
  const request = kit.request as LocateRequest;
  const isSupposed = (one: Supposed) =>
    supposed.some(
      ({ trunk, node, function: name }) =>
        one.trunk === trunk && one.node === node && one.function === name,
    );
  const observations: RequestObservation[] = [
    ...(request.observations ?? []).filter((one) => !isSupposed(one)),
    ...supposed.map((one) => ({ ...one, informant: { kind: 'technician' as const } })),
  ];
  return locateKit({ ...kit, request: { ...request, observations } }, 0);
}
