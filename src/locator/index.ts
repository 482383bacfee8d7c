export { locate } from './locate.js';
export type {
  Check,
  ComponentChances,
  ComponentName,
  Explanation,
  LikelyPlace,
  LocateResult,
  NodeExplanation,
  Place,
  PlaceChance,
  Prediction,
  Stretch,
  TrunkExplanation,
} from './answer/locate-result.js';
export type { CheckAction, HeadEndSetting, LookedAt, RankedCheck } from './checks/check-action.js';
export { HEAD_END_SETTINGS } from './checks/check-action.js';
export { expectedGiven, type SettingsTold } from './checks/expected-given.js';
export { officeChecks } from './checks/office-checks.js';
export { technicianChecks } from './checks/technician-checks.js';
export type { JointCandidateAnswer, ResistiveJoints } from './joints/joint-answer.js';
export type { Core } from './model/cores.js';
export { CORES } from './model/cores.js';
export type {
  Condition,
  ErrorRates,
  InformantErrors,
  InformantKind,
  Outcome,
} from './model/error-rates.js';
export { CONDITIONS, DEFAULT_ERROR_RATES, INFORMANT_KINDS, OUTCOMES } from './model/error-rates.js';
export type {
  ExpectedFaults,
  ModeExpectation,
  NodeExpectation,
  TrunkExpectation,
} from './model/expected-faults.js';
export type { FunctionName } from './model/functions.js';
export { FUNCTIONS } from './model/functions.js';
export type { HeadEndMode, PortMode, SpanMode, StationMode } from './model/modes.js';
export { HEAD_END_MODES, PORT_MODES, SPAN_MODES, STATION_MODES } from './model/modes.js';
export type { RateTables } from './model/rates.js';
export { DEFAULT_RATES } from './model/rates.js';
export type { RequestError } from './request/errors.js';
export { ImpossibleEvidence, InvalidLocateRequest } from './request/errors.js';
export * from './request/limits.js';
export type {
  Continuity,
  Electrical,
  Informant,
  LocateRequest,
  LoopOhms,
  RequestNode,
  RequestObservation,
  RequestReading,
  RequestTrunk,
  SupplyVolts,
  Unmentioned,
} from './request/locate-request.js';
export type { Surprise, SurprisingObservation } from './surprise/surprise.js';
export { surprise } from './surprise/surprise.js';
export type { Component } from './time/component.js';
export type { ComesAndGoes, PassingSpan } from './time/comes-and-goes.js';
export { comesAndGoes, MAX_SITTINGS, PASSING_SHARE } from './time/comes-and-goes.js';
export { expectFaults, type SiteRecord } from './time/expect-faults.js';
export type { Proof } from './time/last-proven.js';
export { RAISED_FOR_DAYS } from './time/raised-days.js';
export type { SittingObservation, SittingsRequest } from './time/sittings-request.js';
export { LOOP_CORES, NODE_KINDS, READING_KINDS } from './request/locate-request.js';
