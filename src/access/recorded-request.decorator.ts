import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { type RecordedRequest, targetOf } from './record.js';
import { routeKey } from './route-roles.js';

/** What of a request belongs in the record. */
export function recordedRequest(request: FastifyRequest): RecordedRequest {
  const { method, routeOptions, params, address, id } = request;
  return {
    action: routeKey(method, routeOptions.url ?? ''),
    target: targetOf(params, undefined),
    address,
    requestId: id,
  };
}

/** The same as a handler's parameter, for open routes. */
export const Recorded = createParamDecorator(
  (_: unknown, context: ExecutionContext): RecordedRequest =>
    recordedRequest(context.switchToHttp().getRequest<FastifyRequest>()),
);
