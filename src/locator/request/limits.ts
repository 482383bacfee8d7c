// Stated limits of a request; beyond them it is refused by name, never cut short.

/** Nodes of all trunks together. */
export const MAX_NODES = 5_000;
/** Observations of a request. */
export const MAX_OBSERVATIONS = 5_000;
/** Characters of an id. */
export const MAX_ID_LENGTH = 200;
/** Metres of one span's cable. */
export const MAX_CABLE_METRES = 100_000;
/** Days since a component was last proven good: a hundred years. */
export const MAX_EXPOSURE_DAYS = 36_525;
/** Faults per year of one mode (cable: per metre and year). */
export const MAX_RATE_PER_YEAR = 1_000_000;
/**
 * Informants whose observations straddle one span and who could be confused: each doubles the work there.
 */
export const MAX_STRADDLING_INFORMANTS = 10;
/** Tables of one location: nodes times head-end groups times 2 for each straddling informant there. */
export const MAX_TABLES = 100_000;
/** Explanations of one answer. */
export const MAX_EXPLANATIONS = 1_000;
/** Explanations of an answer where the request does not say how many. */
export const DEFAULT_EXPLANATIONS = 10;
