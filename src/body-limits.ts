import type { JsonBounds } from './shared/json-bounds.js';

/** How large a body may be, and how much may be in it where it is JSON. */
export interface BodyLimits extends JsonBounds {
  bytes: number;
}

const KIB = 1024;

/** Who signs in, or is on the way there: anybody at all sends these. */
const CREDENTIALS: BodyLimits = {
  bytes: 4 * KIB,
  depth: 2,
  fieldsOfOne: 20,
  elementsOfOne: 20,
  values: 40,
};

/** The fields of one thing, with a note of 5,000 characters. */
const ONE_THING: BodyLimits = {
  bytes: 64 * KIB,
  depth: 8,
  fieldsOfOne: 100,
  elementsOfOne: 500,
  values: 2_000,
};

/** What is said of up to 5,000 rooms. */
const ROOMS: BodyLimits = {
  bytes: 1024 * KIB,
  depth: 8,
  fieldsOfOne: 100,
  elementsOfOne: 5_000,
  values: 50_000,
};

/** One trunk of 2,000 nodes. */
const TRUNK: BodyLimits = { ...ROOMS, bytes: 512 * KIB, elementsOfOne: 2_000, values: 20_000 };

/** A drawing of 5,000 nodes as JSON or as a sheet. */
const DRAWING: BodyLimits = {
  ...ROOMS,
  bytes: 4 * KIB * KIB,
  values: 100_000,
};

/** A drawing of 5,000 nodes and as many observations. */
const LOCATE: BodyLimits = { ...ROOMS, bytes: 2 * KIB * KIB, values: 100_000 };

/** Up to 500 closed times, or the text of a calendar. */
const CALENDAR: BodyLimits = { ...ONE_THING, bytes: 512 * KIB, values: 3_000 };

/** A contract of 200 sites and as many closed days. */
const CONTRACT: BodyLimits = { ...ONE_THING, bytes: 128 * KIB };

/** A picture of 2,000,000 bytes in base 64, and its caption. */
const PHOTO: BodyLimits = { ...ONE_THING, bytes: 2_750 * KIB };

/** The routes whose bodies are not those of one thing. */
const BY_ROUTE: Readonly<Record<string, BodyLimits>> = {
  'POST /api/v1/session': CREDENTIALS,
  'PUT /api/v1/password': CREDENTIALS,
  'POST /api/v1/password-resets': CREDENTIALS,
  'POST /api/v1/password-from-link': CREDENTIALS,
  'POST /api/v1/second-step': CREDENTIALS,
  'POST /api/v1/second-step/confirm': CREDENTIALS,
  'POST /api/v1/second-step/end': CREDENTIALS,
  'POST /api/v1/pass/session': CREDENTIALS,
  'PUT /api/v1/sites/:siteId/as-built': DRAWING,
  'PUT /api/v1/sites/:siteId/as-built/sheet': DRAWING,
  'POST /api/v1/contracts': CONTRACT,
  'PATCH /api/v1/contracts/:contractId': CONTRACT,
  'POST /api/v1/contracts/:contractId/renewal': CONTRACT,
  'PATCH /api/v1/prices': CALENDAR,
  'POST /api/v1/closed-calendars': CALENDAR,
  'PATCH /api/v1/closed-calendars/:calendarId': CALENDAR,
  'POST /api/v1/closed-calendars/reading': CALENDAR,
  'PUT /api/v1/closed-calendars/:calendarId/icalendar': CALENDAR,
  'POST /api/v1/survey': TRUNK,
  'POST /api/v1/sites/:siteId/as-built/trunks/:trunk/survey': TRUNK,
  'POST /api/v1/locate': LOCATE,
  'POST /api/v1/sites/:siteId/reports': ROOMS,
  'POST /api/v1/tickets/:ticketId/reports': ROOMS,
  'POST /api/v1/tickets/:ticketId/walk-tests': ROOMS,
  'POST /api/v1/tickets/:ticketId/moves': ROOMS,
  'POST /api/v1/visits/:visitId/walk-tests': ROOMS,
  'POST /api/v1/tickets/:ticketId/photos': PHOTO,
  'POST /api/v1/visits/:visitId/photos': PHOTO,
  'POST /api/v1/pass/reports': ROOMS,
  'POST /api/v1/pass/tickets/:ticketId/reports': ROOMS,
};

/** Of a route by its method and its path with the parameters' names. */
export function bodyLimitsOf(method: string, path: string | undefined): BodyLimits {
  return BY_ROUTE[`${method} ${path}`] ?? ONE_THING;
}

/**
 * The routes that have limits of their own: each must be a route that there is.
 * @internal for the test that says so
 */
export const ROUTES_WITH_LIMITS: readonly string[] = Object.keys(BY_ROUTE);
