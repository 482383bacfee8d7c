import type { FastifyRequest } from 'fastify';

/** Whether an address is asked for that begins so: as it was sent, or in escapes, which the route that was found has not. */
export function isUnder(prefix: string, request: FastifyRequest): boolean {
  return request.url.startsWith(prefix) || request.routeOptions.url?.startsWith(prefix) === true;
}
