import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { type AuditedRequest, targetOf } from './audited-request.js';
import { routeKey } from '../shared/route-key.js';

/** What of a request belongs in the record. */
export function auditedRequest(request: FastifyRequest): AuditedRequest {
  const { method, routeOptions, params, address, id } = request;
  return {
    action: routeKey(method, routeOptions.url ?? ''),
    target: targetOf(params, undefined),
    address,
    requestId: id,
  };
}

/** The same as a handler's parameter, for open routes. */
export const Audited = createParamDecorator(
  (_: unknown, context: ExecutionContext): AuditedRequest =>
    auditedRequest(context.switchToHttp().getRequest<FastifyRequest>()),
);
