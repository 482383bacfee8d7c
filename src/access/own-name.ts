import type { Principal } from '../people/principal.js';

/** Where others are quoted: what is said there need not be one's own word. */
const QUOTING: readonly string[] = [
  'POST /api/v1/sites/:siteId/reports',
  'POST /api/v1/sites/:siteId/works-nearby',
  'POST /api/v1/tickets/:ticketId/reports',
  'POST /api/v1/tickets/:ticketId/answers',
  'POST /api/v1/tickets/:ticketId/looks',
];

const SIGNING = 'POST /api/v1/visits/:visitId/signatures';

/** The fields that name who did or said what a request is about; as text, or as a name with a kind. */
const DOERS = ['saidBy', 'takenBy', 'testedBy', 'changedBy', 'by'] as const;

/**
 * What somebody sent, under their own name. A technician does everything as themselves, and may quote
 * the office but no other technician; a client's person speaks as the office, and signs as themselves.
 * Who plans writes down what others ring in, and names them.
 */
export function underOwnName(
  sent: unknown,
  route: string,
  { role }: Pick<Principal, 'role'>,
  name: string,
): unknown {
  if (!isFields(sent)) return sent;
  if (role === 'client') return asOffice(sent, route, name);
  if (role !== 'technician') return sent;
  const quotes = QUOTING.includes(route);
  return mapDoers(sent, (doer) => {
    if (typeof doer === 'string') return name;
    const { kind } = doer;
    return quotes && kind !== 'technician' ? doer : { ...doer, name, kind: 'technician' };
  });
}

function asOffice(
  body: Record<string, unknown>,
  route: string,
  name: string,
): Record<string, unknown> {
  if (route === SIGNING) return { ...body, name };
  return mapDoers(body, (doer) => (typeof doer === 'string' ? name : { ...doer, kind: 'office' }));
}

/** What is no name at all is left for the checks of the body. */
function mapDoers(
  body: Record<string, unknown>,
  map: (doer: string | Record<string, unknown>) => unknown,
): Record<string, unknown> {
  const mapped = { ...body };
  for (const field of DOERS) {
    const doer = body[field];
    if (typeof doer === 'string') mapped[field] = map(doer);
    else if (isFields(doer)) mapped[field] = map(doer);
  }
  return mapped;
}

/** No list, and no sheet's bytes. */
function isFields(value: unknown): value is Record<string, unknown> {
  if (typeof value !== 'object' || value === null) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}
