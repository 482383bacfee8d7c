export type { Place } from '../drawing/drawn-node.js';
export { locate, locateAndKeep } from './locate.js';
export { locatePlaces } from './locate-places.js';
export type {
  DrawingAlternative,
  DrawingAnswer,
  TellApart,
} from './alternatives/drawing-answer.js';
export type { WeighedTroubles } from './causes/weigh-troubles.js';
export type { Cause, CauseChance, Trouble } from './causes/trouble-answer.js';
export type {
  Check,
  ComponentChances,
  ComponentName,
  Explanation,
  LikelyPlace,
  LocateResult,
  NodeExplanation,
  PlaceChance,
  Prediction,
  Stretch,
  TrunkExplanation,
} from './posterior/locate-result.js';
export type { CheckAction, LookedAt, RankedCheck } from './checks/check-action.js';
export {
  checksOfBoth,
  type ChecksOfBoth,
  LEAST_CAUSE_BITS,
  officeChecksAboutCauses,
  technicianChecksAboutCauses,
} from './checks/about-causes.js';
export { officeChecks } from './checks/office-checks.js';
export { technicianChecks } from './checks/technician-checks.js';
export type { JointCandidateAnswer, ResistiveJoints } from './readings/joint-answer.js';
export type { Core } from '../plan/cores.js';
export { CORES } from '../plan/cores.js';
export type {
  Condition,
  ErrorRates,
  InformantErrors,
  InformantKind,
  Outcome,
} from '../plan/error-rates.js';
export { CONDITIONS, DEFAULT_ERROR_RATES, INFORMANT_KINDS, OUTCOMES } from '../plan/error-rates.js';
export type {
  ExpectedFaults,
  ModeExpectation,
  NodeExpectation,
  TrunkExpectation,
} from '../plan/expected-faults.js';
export type { FunctionName } from '../plan/functions.js';
export { FUNCTIONS } from '../plan/functions.js';
export type {
  GroupMode,
  GroupSetting,
  HeadEndMode,
  HeadEndModeName,
  HeadEndSetting,
  PortMode,
  SiteSetting,
  SpanMode,
  StationMode,
} from '../plan/modes.js';
export { HEAD_END_MODES, PORT_MODES, SPAN_MODES, STATION_MODES } from '../plan/modes.js';
export type { RateTables } from '../plan/rates.js';
export { DEFAULT_RATES } from '../plan/rates.js';
export type { RequestError } from './request/errors.js';
export { ImpossibleEvidence, InvalidLocateRequest } from './request/errors.js';
export * from './request/limits.js';
export type {
  Continuity,
  Electrical,
  Informant,
  LocateRequest,
  LoopOhms,
  RequestLook,
  RequestNode,
  RequestObservation,
  RequestReading,
  RequestTrunk,
  SupplyVolts,
  Unmentioned,
} from './request/locate-request.js';
export type { AgainstTheRest } from './surprise/against-the-rest.js';
export type { Surprise } from './surprise/surprise.js';
export type { SurprisingObservation } from './surprise/leave-one-out.js';
export { surprise } from './surprise/surprise.js';
export type { Component } from './exposure/component.js';
export type { Intermittent, PassingPart, PassingSpan } from './intermittent/intermittent.js';
export { intermittent, MAX_SITTINGS } from './intermittent/intermittent.js';
export { expectFaults, type SiteHistory } from './exposure/expect-faults.js';
export type { Proof } from './exposure/last-proven.js';
export { RAISED_FOR_DAYS } from './exposure/raised-days.js';
export type { SittingObservation, SittingsRequest } from './intermittent/sittings-request.js';
export { BEGUN_BY, LOOP_CORES, READING_KINDS } from './request/locate-request.js';
