import { randomUUID } from 'node:crypto';
import { type IncomingMessage, type ServerResponse, STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import { HttpException } from '@nestjs/common';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { SECURITY_HEADERS } from './security-headers.js';
import { PROBLEM_TYPE, requestProblem } from './shared/problem.js';
import { sendProblem } from './shared/send-problem.js';

/** A cursor and some filters fit many times over. */
const MAX_URL_CHARACTERS = 4_096;

/** Addresses that are too long, and requests that do not say whom they are for (RFC 9112, 3.2). */
export function refuseMalformed(app: NestFastifyApplication): void {
  const server: FastifyInstance = app.getHttpAdapter().getInstance();
  server.addHook('onRequest', (request, _reply, done) => {
    if (request.url.length > MAX_URL_CHARACTERS) done(new HttpException('', 414));
    else if (isHostMissing(request)) done(new HttpException('', 400));
    else done();
  });
  // Routes that are there before Nest says what becomes of errors, those of pages, would be left to Fastify's own answer.
  server.addHook('onRoute', (route) => {
    route.errorHandler ??= (error, request, reply) => server.errorHandler(error, request, reply);
  });
  server.server.on('checkExpectation', refuseExpectation);
}

function isHostMissing({ raw }: FastifyRequest): boolean {
  return raw.headers.host === undefined && raw.httpVersion === '1.1';
}

/** What Fastify's router refuses before any hook runs: an address that is wrongly encoded, or a part of it too long. */
export function answerFrameworkError(
  { statusCode = 400 }: FastifyError,
  request: FastifyRequest,
  reply: FastifyReply,
): void {
  void reply.headers({ ...SECURITY_HEADERS, 'x-request-id': request.id });
  sendProblem(request, reply, requestProblem(statusCode));
}

/** `*` is no path, and what Fastify does with none is no answer of ours: no hook would run. */
export function pathOf({ url = '/' }: IncomingMessage): string {
  return url === '*' ? '/*' : url;
}

const STATUS_BY_CODE: Readonly<Record<string, number>> = {
  ERR_HTTP_REQUEST_TIMEOUT: 408,
  HPE_CHUNK_EXTENSIONS_OVERFLOW: 413,
  HPE_HEADER_OVERFLOW: 431,
};

/** What Node's own parser refuses: there is no request, so the answer is written to the connection, which then ends. */
export function answerClientError(error: NodeJS.ErrnoException, socket: Socket): void {
  if (error.code === 'ECONNRESET' || socket.destroyed) return;
  const status = STATUS_BY_CODE[error.code ?? ''] ?? 400;
  const { body, headers } = lastAnswer(status);
  const lines = Object.entries(headers).map(([name, value]) => `${name}: ${value}\r\n`);
  const head = `HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\n${lines.join('')}\r\n`;
  if (socket.writable && !isBeingAnswered(socket)) socket.write(head + body);
  socket.destroy(error);
}

/** `Expect:` anything but 100-continue, which Node would answer with a status alone. */
function refuseExpectation(_request: IncomingMessage, response: ServerResponse): void {
  const { body, headers } = lastAnswer(417);
  response.writeHead(417, headers).end(body);
}

/** For a connection that ends with it, where Fastify has no request. */
function lastAnswer(status: number) {
  const body = JSON.stringify(requestProblem(status));
  const headers = {
    ...SECURITY_HEADERS,
    'x-request-id': randomUUID(),
    'cache-control': 'no-store',
    'content-language': 'en',
    'content-type': PROBLEM_TYPE,
    'content-length': Buffer.byteLength(body),
    connection: 'close',
  };
  return { body, headers };
}

/** An answer that is half written must not be completed by this one; Node's own handler looks for it likewise. */
function isBeingAnswered(socket: Socket): boolean {
  const { _httpMessage: message } = socket as { _httpMessage?: { _headerSent?: boolean } };
  return message?._headerSent === true;
}
