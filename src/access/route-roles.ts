import type { Role } from '../people/roles.js';
import type { Area } from './scopes.js';

export interface GuardedRoute {
  /** Who may call it. */
  roles: readonly Role[];
  /** What a token's scopes must name; null: not for tokens, only for somebody who signed in. */
  area: Area | null;
}

export type RouteRule = 'open' | GuardedRoute;

const OWNER: readonly Role[] = ['owner'];
const OFFICE: readonly Role[] = ['owner', 'dispatcher', 'contract-manager'];
const PLANNERS: readonly Role[] = ['owner', 'dispatcher'];
/** Who keeps what was promised to clients, and sees what they pay. */
const KEEPERS: readonly Role[] = ['owner', 'contract-manager'];
const FIRM: readonly Role[] = [...OFFICE, 'technician'];
/** Whoever came with a site's pass; these routes read the pass's own cookie. */
const PASS: readonly Role[] = ['pass'];
const EVERYBODY: readonly Role[] = [...FIRM, 'client'];

function to(roles: readonly Role[], area: Area | null): GuardedRoute {
  return { roles, area };
}

/**
 * Who may call which route: the one place that says so. A route that is not here answers nobody.
 *
 * A role is what somebody may do at all; which rows they may do it to is the database's to say:
 * a client's people and passes reach their own sites (migrations 0011, 0039).
 */
const ROUTES: Readonly<Record<string, RouteRule>> = {
  'GET /health/live': 'open',
  'GET /health/ready': 'open',
  'GET /pass': 'open',
  'GET /password': 'open',
  'GET /': 'open',
  'GET /sign-in': 'open',
  'GET /way-out': 'open',
  'GET /desk': 'open',
  'GET /desk/*': 'open',
  'GET /account': 'open',
  'GET /first-start': 'open',
  'GET /field': 'open',
  'GET /field/*': 'open',
  'GET /field-worker.js': 'open',
  'GET /field.webmanifest': 'open',
  'GET /field-icon.svg': 'open',
  'GET /assets/*': 'open',

  'GET /api/v1/first-start': 'open',
  'POST /api/v1/first-start': 'open',
  'POST /api/v1/session': 'open',
  'GET /api/v1/session': to(EVERYBODY, null),
  'DELETE /api/v1/session': to(EVERYBODY, null),
  'PUT /api/v1/session/language': to(EVERYBODY, null),
  'GET /api/v1/sessions': to(EVERYBODY, null),
  'DELETE /api/v1/sessions': to(EVERYBODY, null),
  'DELETE /api/v1/sessions/:sessionId': to(EVERYBODY, null),
  'PUT /api/v1/password': to(EVERYBODY, null),
  'POST /api/v1/password-resets': 'open',
  'POST /api/v1/password-from-link': 'open',
  'POST /api/v1/second-step': to(EVERYBODY, null),
  'POST /api/v1/second-step/confirm': to(EVERYBODY, null),
  'POST /api/v1/second-step/end': to(EVERYBODY, null),
  'POST /api/v1/invitations': to(OWNER, null),
  'GET /api/v1/outbox': to(OWNER, null),
  'GET /api/v1/failed-jobs': to(OWNER, 'audit'),
  'GET /api/v1/accounts': to(OWNER, null),
  'POST /api/v1/accounts/:personId/end': to(OWNER, null),
  'POST /api/v1/accounts/:personId/second-step/end': to(OWNER, null),
  'POST /api/v1/accounts/:personId/anonymise': to(OWNER, null),
  'GET /api/v1/audit': to(OWNER, 'audit'),
  'GET /api/v1/audit/sheet': to(OWNER, 'audit'),
  'GET /api/v1/tokens': to(FIRM, null),
  'POST /api/v1/tokens': to(FIRM, null),
  'DELETE /api/v1/tokens/:tokenId': to(FIRM, null),

  'GET /api/v1/firm': to(EVERYBODY, 'people'),
  'GET /api/v1/public-address': to(FIRM, 'people'),
  'PATCH /api/v1/firm': to(OWNER, 'people'),

  'GET /api/v1/people': to(OFFICE, 'people'),
  'POST /api/v1/people': to(OWNER, 'people'),
  'GET /api/v1/people/:id': to(OFFICE, 'people'),
  'PATCH /api/v1/people/:id': to(OWNER, 'people'),

  'GET /api/v1/clients': to(OFFICE, 'sites'),
  'POST /api/v1/clients': to(OFFICE, 'sites'),
  'GET /api/v1/clients/:id': to([...OFFICE, 'client'], 'sites'),
  'PATCH /api/v1/clients/:id': to(OFFICE, 'sites'),
  'GET /api/v1/sites': to(EVERYBODY, 'sites'),
  'POST /api/v1/sites': to(OFFICE, 'sites'),
  'GET /api/v1/sites/:id': to(EVERYBODY, 'sites'),
  'PATCH /api/v1/sites/:id': to(OFFICE, 'sites'),
  'GET /api/v1/sites/:siteId/as-built': to(EVERYBODY, 'sites'),
  'PUT /api/v1/sites/:siteId/as-built': to(FIRM, 'sites'),
  'PATCH /api/v1/sites/:siteId/as-built/trunks/:trunk/nodes/:node': to(FIRM, 'sites'),
  'GET /api/v1/sites/:siteId/as-built/versions': to(FIRM, 'sites'),
  'GET /api/v1/sites/:siteId/as-built/compare': to(FIRM, 'sites'),
  'GET /api/v1/sites/:siteId/as-built/sheet': to(FIRM, 'sites'),
  'PUT /api/v1/sites/:siteId/as-built/sheet': to(FIRM, 'sites'),

  'POST /api/v1/sites/:siteId/as-built/trunks/:trunk/survey': to(FIRM, 'sites'),
  'POST /api/v1/survey': to(FIRM, 'sites'),
  'POST /api/v1/survey/distance-to-short': to(FIRM, 'sites'),
  'POST /api/v1/survey/loop-bridge': to(FIRM, 'sites'),

  'POST /api/v1/locate': to(EVERYBODY, 'locate'),
  'POST /api/v1/sites/:siteId/reports': to(EVERYBODY, 'tickets'),
  'GET /api/v1/sites/:siteId/works-nearby': to(EVERYBODY, 'sites'),
  'GET /api/v1/sites/:siteId/findings': to(FIRM, 'sites'),
  'POST /api/v1/sites/:siteId/works-nearby': to(EVERYBODY, 'sites'),
  'POST /api/v1/sites/:siteId/works-nearby/:workId/withdraw': to(FIRM, 'sites'),
  'GET /api/v1/tickets': to(EVERYBODY, 'tickets'),
  'GET /api/v1/tickets/:ticketId': to(EVERYBODY, 'tickets'),
  'GET /api/v1/tickets/:ticketId/log': to(FIRM, 'tickets'),
  'GET /api/v1/tickets/:ticketId/observations': to(EVERYBODY, 'tickets'),
  'GET /api/v1/tickets/:ticketId/readings': to(EVERYBODY, 'tickets'),
  'GET /api/v1/tickets/:ticketId/looks': to(EVERYBODY, 'tickets'),
  'GET /api/v1/tickets/:ticketId/location': to(FIRM, 'tickets'),
  'GET /api/v1/tickets/:ticketId/walk': to(FIRM, 'tickets'),
  'GET /api/v1/tickets/:ticketId/kit': to(FIRM, 'tickets'),
  'GET /api/v1/tickets/:ticketId/kit-in-words': to(FIRM, 'tickets'),
  'GET /api/v1/desk': to(FIRM, 'tickets'),
  'GET /api/v1/changes': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/reports': to(EVERYBODY, 'tickets'),
  'POST /api/v1/tickets/:ticketId/notes': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/answers': to(EVERYBODY, 'tickets'),
  'POST /api/v1/tickets/:ticketId/findings': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/mendings': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/mendings/:mendingId/withdraw': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/walk-tests': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/readings': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/readings/:readingId/withdraw': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/looks': to(EVERYBODY, 'tickets'),
  'POST /api/v1/tickets/:ticketId/looks/:lookId/withdraw': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/observations/:observationId/withdraw': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/moves': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/newer-record': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/merge': to(PLANNERS, 'tickets'),
  'POST /api/v1/tickets/:ticketId/split': to(PLANNERS, 'tickets'),

  'GET /api/v1/tickets/:ticketId/photos': to(EVERYBODY, 'tickets'),
  'POST /api/v1/tickets/:ticketId/photos': to(FIRM, 'tickets'),
  'GET /api/v1/visits/:visitId/photos': to(EVERYBODY, 'visits'),
  'POST /api/v1/visits/:visitId/photos': to(FIRM, 'visits'),
  'GET /api/v1/photos/:photoId/image': to(EVERYBODY, 'tickets'),
  'POST /api/v1/photos/:photoId/withdraw': to(FIRM, 'tickets'),

  'GET /api/v1/reports/reliability': to(OFFICE, 'tickets'),

  'GET /api/v1/visits': to(EVERYBODY, 'visits'),
  'POST /api/v1/visits': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId': to(EVERYBODY, 'visits'),
  'PATCH /api/v1/visits/:visitId': to(FIRM, 'visits'),
  'POST /api/v1/visits/:visitId/moves': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/log': to(FIRM, 'visits'),
  'POST /api/v1/visits/:visitId/readings': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/readings': to(FIRM, 'visits'),
  'POST /api/v1/visits/:visitId/readings/:readingId/withdraw': to(FIRM, 'visits'),
  'POST /api/v1/visits/:visitId/looks': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/looks': to(FIRM, 'visits'),
  'POST /api/v1/visits/:visitId/looks/:lookId/withdraw': to(FIRM, 'visits'),
  'POST /api/v1/visits/:visitId/walk-tests': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/walk-tests': to(FIRM, 'visits'),
  'POST /api/v1/visits/:visitId/walk-tests/:walkTestId/withdraw': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/checklist': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/job-sheet': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/job-sheet/paper': to(FIRM, 'visits'),
  'GET /api/v1/visits/:visitId/signatures': to(EVERYBODY, 'visits'),
  'POST /api/v1/visits/:visitId/signatures': to(['client', 'technician'], null),

  'GET /api/v1/tickets/:ticketId/clock': to(EVERYBODY, 'tickets'),
  'POST /api/v1/tickets/:ticketId/pauses': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/pauses/end': to(FIRM, 'tickets'),
  'POST /api/v1/tickets/:ticketId/trouble-class': to(OFFICE, 'tickets'),
  'POST /api/v1/tickets/:ticketId/breach-causes': to(OFFICE, 'tickets'),

  'GET /api/v1/contracts': to(OFFICE, 'contracts'),
  'POST /api/v1/contracts': to(KEEPERS, 'contracts'),
  'GET /api/v1/contracts/:contractId': to(OFFICE, 'contracts'),
  'PATCH /api/v1/contracts/:contractId': to(KEEPERS, 'contracts'),
  'POST /api/v1/contracts/:contractId/renewal': to(KEEPERS, 'contracts'),
  'GET /api/v1/contracts/:contractId/account': to(KEEPERS, 'contracts'),
  'GET /api/v1/prices': to(KEEPERS, 'contracts'),
  'PATCH /api/v1/prices': to(KEEPERS, 'contracts'),
  'GET /api/v1/contracts/:contractId/clocks': to(OFFICE, 'contracts'),
  'GET /api/v1/contracts/:contractId/visits': to(OFFICE, 'contracts'),
  'GET /api/v1/contracts/:contractId/review': to(KEEPERS, 'contracts'),
  'GET /api/v1/contracts/:contractId/review/sheet': to(KEEPERS, 'contracts'),
  'GET /api/v1/contracts/:contractId/review/paper': to(KEEPERS, 'contracts'),
  'GET /api/v1/contracts/:contractId/should-cost': to(KEEPERS, 'contracts'),
  'GET /api/v1/should-cost': to(KEEPERS, 'contracts'),
  'GET /api/v1/closed-calendars': to(OFFICE, 'contracts'),
  'POST /api/v1/closed-calendars': to(KEEPERS, 'contracts'),
  'GET /api/v1/closed-calendars/:calendarId': to(OFFICE, 'contracts'),
  'PATCH /api/v1/closed-calendars/:calendarId': to(KEEPERS, 'contracts'),
  'POST /api/v1/closed-calendars/reading': to(KEEPERS, 'contracts'),
  'DELETE /api/v1/closed-calendars/:calendarId': to(KEEPERS, 'contracts'),
  'PUT /api/v1/closed-calendars/:calendarId/icalendar': to(KEEPERS, 'contracts'),
  'GET /api/v1/sites/:siteId/cover': to(FIRM, 'contracts'),

  'GET /api/v1/working-times': to(OFFICE, 'visits'),
  'PUT /api/v1/people/:personId/working-time': to(PLANNERS, 'visits'),
  'GET /api/v1/people/:personId/van': to(FIRM, 'visits'),
  'PUT /api/v1/people/:personId/van': to([...PLANNERS, 'technician'], 'visits'),
  'GET /api/v1/work-times': to(FIRM, 'visits'),
  'PATCH /api/v1/work-times': to(OWNER, 'visits'),
  'GET /api/v1/planning-rules': to(OFFICE, 'visits'),
  'PATCH /api/v1/planning-rules': to(PLANNERS, 'visits'),
  'GET /api/v1/plans/jobs/:jobId/wish': to(OFFICE, 'visits'),
  'PUT /api/v1/plans/jobs/:jobId/wish': to(PLANNERS, 'visits'),
  'GET /api/v1/plans/days/:day': to(FIRM, 'visits'),
  'POST /api/v1/plans/days/:day': to(PLANNERS, 'visits'),
  'POST /api/v1/plans/days/:day/acceptance': to(PLANNERS, 'visits'),
  'GET /api/v1/plans/quarters/:day': to(OFFICE, 'visits'),
  'POST /api/v1/plans/quarters/:day': to(PLANNERS, 'visits'),
  'PUT /api/v1/plans/quarters/:day/wishes': to(PLANNERS, 'visits'),
  'POST /api/v1/plans/quarters/:day/acceptance': to(PLANNERS, 'visits'),

  'GET /api/v1/notice-wishes': to(EVERYBODY, null),
  'POST /api/v1/notice-wishes': to(EVERYBODY, null),
  'GET /api/v1/notice-wishes/:wishId/notices': to(EVERYBODY, null),
  'POST /api/v1/notice-wishes/:wishId/end': to(EVERYBODY, null),
  'POST /api/v1/notice-wishes/way-out': 'open',

  'GET /api/v1/calendar': 'open',
  'GET /api/v1/calendars': to(FIRM, 'visits'),
  'POST /api/v1/calendars': to(FIRM, null),
  'POST /api/v1/calendars/:calendarFeedId/end': to(FIRM, 'visits'),

  'GET /api/v1/sites/:siteId/passes': to(OFFICE, 'passes'),
  'POST /api/v1/sites/:siteId/passes': to(OFFICE, 'passes'),
  'POST /api/v1/passes/:passId/end': to(OFFICE, 'passes'),
  'POST /api/v1/pass/session': 'open',
  'GET /api/v1/pass/site': to(PASS, null),
  'POST /api/v1/pass/works-nearby': to(PASS, null),
  'POST /api/v1/pass/reports': to(PASS, null),
  'GET /api/v1/pass/tickets/:ticketId': to(PASS, null),
  'POST /api/v1/pass/tickets/:ticketId/reports': to(PASS, null),
  'POST /api/v1/pass/tickets/:ticketId/answers': to(PASS, null),
  'POST /api/v1/pass/tickets/:ticketId/looks': to(PASS, null),
  'POST /api/v1/pass/visits/:visitId/signatures': to(PASS, null),
};

export function findRouteRule(key: string): RouteRule | undefined {
  return Object.hasOwn(ROUTES, key) ? ROUTES[key] : undefined;
}

/**
 * Every route of the table.
 * @internal for the tests, which go through them all
 */
export const TABLED_ROUTES: readonly string[] = Object.keys(ROUTES);
