import { isUtf8 } from 'node:buffer';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { errorCodes, type FastifyInstance, type FastifyRequest } from 'fastify';
import { bodyLimitsOf } from './body-limits.js';
import { InvalidInputError } from './shared/domain-error.js';
import { findExcess } from './shared/json-bounds.js';
import { findUnkeepable } from './shared/unkeepable-text.js';

const FORM = 'application/x-www-form-urlencoded';
const WAY_OUT = '/api/v1/notice-wishes/way-out';
const CSV = 'text/csv';
const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/**
 * Bodies are JSON, and CSV or XLSX where a route takes a sheet. What is too large, too deep or too much is refused while it is
 * read, and text that cannot be kept before any handler sees it, whoever sends it.
 */
export function readBodies(app: NestFastifyApplication): void {
  const fastify: FastifyInstance = app.getHttpAdapter().getInstance();
  fastify.addHook('onRoute', (route) => {
    route.bodyLimit ??= bodyLimitsOf(String(route.method), route.url).bytes;
  });
  fastify.addHook('onRequest', (request, _reply, done) => {
    done(unkeepableIn(request));
  });
  const parse = fastify.getDefaultJsonParser('error', 'error');
  fastify.removeContentTypeParser(['application/json', 'text/plain']);
  fastify.addContentTypeParser(
    'application/json',
    { parseAs: 'buffer' },
    (request, body: Buffer, done) => {
      const refusal = refusalOf(request, body);
      if (refusal !== undefined) return done(refusal, undefined);
      // As every other parser that Fastify has, this one takes text.
      void parse(request, body.toString(), (error, value: unknown) => {
        done(error ?? unkeepableBody(body, value) ?? null, value);
      });
    },
  );
  // A mail program that ends mails by itself sends a form (RFC 8058, section 3.1); nobody else may, so no other site's form does.
  fastify.addContentTypeParser(FORM, { parseAs: 'buffer' }, ({ routeOptions }, _body, done) => {
    if (routeOptions.url === WAY_OUT) return done(null, undefined);
    done(new errorCodes.FST_ERR_CTP_INVALID_MEDIA_TYPE(FORM), undefined);
  });
  fastify.addContentTypeParser([CSV, XLSX], { parseAs: 'buffer' }, (_request, body, done) => {
    done(null, body);
  });
}

function refusalOf({ method, routeOptions }: FastifyRequest, body: Buffer): Error | undefined {
  if (!isUtf8(body)) return refuse('', 'is not text in UTF-8');
  const excess = findExcess(body, bodyLimitsOf(method, routeOptions.url));
  return excess === undefined ? undefined : refuse('', excess);
}

/** Only an escape can bring such text in: bytes in UTF-8 have no halves, and JSON wants NUL escaped. */
function unkeepableBody(body: Buffer, value: unknown): Error | undefined {
  if (!body.includes('\\u')) return undefined;
  const found = findUnkeepable(value);
  return found === undefined ? undefined : refuse(found.pointer, found.reason);
}

function unkeepableIn({ url, params, query }: FastifyRequest): Error | undefined {
  if (!url.includes('%')) return undefined;
  const found = findUnkeepable(params) ?? findUnkeepable(query);
  return found === undefined ? undefined : refuse(found.pointer.slice(1), found.reason);
}

function refuse(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason }]);
}
