import type { LocateRequest, RequestObservation, Unmentioned } from '../request/locate-request.js';

/** An observation with the number of the sitting in which it was made: all of one sitting was so at the same time. */
export interface SittingObservation extends RequestObservation {
  sitting: number;
}

/** A request whose evidence was gathered in sittings. */
export interface SittingsRequest extends LocateRequest {
  observations: SittingObservation[];
  /** Silence belongs to the sitting in which the rooms were volunteered. */
  unmentioned?: Unmentioned & { sitting: number };
}
