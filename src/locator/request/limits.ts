export { MAX_GROUPS } from '../../plan/modes.js';

// Stated limits of a request; beyond them it is refused by name, never cut short.

/** Nodes of all trunks together. */
export const MAX_NODES = 5_000;
/** Observations of a request. */
export const MAX_OBSERVATIONS = 5_000;
/** Looks of a request. */
export const MAX_LOOKS = 1_000;
/** Nodes of one trunk below which it was disconnected for some observation; fewer where their states are too many. */
export const MAX_DISCONNECTIONS_OF_ONE_TRUNK = 8;
/**
 * States of one point of a trunk that was disconnected; each disconnection multiplies them. More where no spans join, which
 * is what takes long. MAX_TABLES holds for tables of STATES_OF_A_TABLE states.
 */
export const MAX_STATES = 1_500;
export const MAX_STATES_IN_A_ROW = 5_000;
export const STATES_OF_A_TABLE = 22;
/** Of `falseAlarmRatio`; smaller ones would lose digits. */
export const MIN_FALSE_ALARM_RATIO = 0.01;
export const DEFAULT_FALSE_ALARM_RATIO = 0.02;
/** Characters of an id. */
export const MAX_ID_LENGTH = 200;
/** Characters of an informant's id: the longest name, which may be twice as long in lower case, and the kind of work. */
export const MAX_INFORMANT_LENGTH = 500;
/** Metres of one span's cable. */
export const MAX_CABLE_METRES = 100_000;
/** Days since a component was last proven good: a hundred years. */
export const MAX_EXPOSURE_DAYS = 36_525;
/** Faults per year of one mode (cable: per metre and year). */
export const MAX_RATE_PER_YEAR = 1_000_000;
/**
 * Informants whose observations straddle one place and who could be confused: each doubles the work there. Of more, those
 * with the fewest words are taken for nobody in particular.
 */
export const MAX_STRADDLING_INFORMANTS = 10;
/** Tables of one location: nodes times head-end groups times 2 for each straddling informant there. */
export const MAX_TABLES = 100_000;
/** The same for taking informants in as somebody: beyond these one more is taken for nobody in particular. */
export const MAX_TABLES_FOR_IDENTITIES = 40_000;
/** Explanations of one answer. */
export const MAX_EXPLANATIONS = 1_000;
/** Explanations of an answer where the request does not say how many. */
export const DEFAULT_EXPLANATIONS = 10;
/** Checks of one answer that are weighed by the causes, and nodes of a request that asks for them. */
export const MAX_CHECKS = 64;
export const MAX_CHECKED_NODES = 120;
/** Readings of a request. */
export const MAX_READINGS = 100;
/** Loop resistances read of one core of one trunk: they share one short, and each doubles the terms of its density. */
export const MAX_LOOPS_OF_ONE_CORE = 6;
/** Supply voltages read on one trunk: a bad joint is weighed by all of them together. */
export const MAX_VOLTS_OF_ONE_TRUNK = 24;
/** What overlapping continuity and loop readings can tell apart at one place; and, at a tee, in two branches together. */
export const MAX_LABELS = 512;
export const MAX_LABEL_PAIRS = 50_000;
export const MIN_SOURCE_VOLTS = 1;
export const MAX_SOURCE_VOLTS = 1_000;
/** Of the supply itself. */
export const MAX_SOURCE_OHMS = 1_000;
export const MAX_STATION_AMPS = 100;
export const MIN_CORE_OHMS_PER_KM = 0.01;
export const MAX_CORE_OHMS_PER_KM = 10_000;
/** Of a loop whose trunk or cable is not known. */
export const MAX_LOOP_OHMS = 1e9;
export const MIN_CELSIUS = -60;
export const MAX_CELSIUS = 200;
/** Standard uncertainties below these are no meter's. */
export const MIN_UNCERTAINTY_VOLTS = 1e-4;
export const MIN_UNCERTAINTY_OHMS = 1e-4;
/** What a meter can read is taken to end at so many times the source's volts, or the ohms of the trunk's longest loop. */
export const READING_REACH = 1.5;
