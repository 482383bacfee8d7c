import { randomUUID } from 'node:crypto';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { LogController } from 'fastify';
import type { Logger } from 'pino';
import { AppModule, type AppSettings } from './app.module.js';
import { configureApp } from './configure-app.js';
import { createJsonLog, toNestLogger } from './observability/json-log.js';
import { answerClientError, answerFrameworkError, pathOf } from './refuse-malformed.js';

const HEADERS_TIMEOUT_MS = 10_000;
const REQUEST_TIMEOUT_MS = 30_000;
const KEEP_ALIVE_TIMEOUT_MS = 72_000;

export interface ServerSettings {
  /** Addresses or networks of proxies, whose word on where a request came from is taken. */
  trustProxy?: string;
  log?: Logger;
}

/** The web server below the app; its log is the app's. Left to itself it tells of errors alone. */
export function createAdapter({
  trustProxy,
  log = createJsonLog('error'),
}: ServerSettings = {}): FastifyAdapter {
  return new FastifyAdapter({
    forceCloseConnections: 'idle',
    trustProxy: trustProxy ?? false,
    loggerInstance: log,
    // Requests are logged once, by observeRequests.
    logController: new LogController({ disableRequestLogging: true }),
    // Our own, and never what somebody sends as one: the log and the record are found by it.
    genReqId: () => randomUUID(),
    requestIdHeader: false,
    // Whoever sends slowly on purpose holds a connection, and not for longer than this.
    requestTimeout: REQUEST_TIMEOUT_MS,
    http: {
      headersTimeout: HEADERS_TIMEOUT_MS,
      connectionsCheckingInterval: 1000,
      // Node would answer with nothing but a status; refuseMalformed looks for it.
      requireHostHeader: false,
    },
    clientErrorHandler: answerClientError,
    frameworkErrors: answerFrameworkError,
    rewriteUrl: pathOf,
    keepAliveTimeout: KEEP_ALIVE_TIMEOUT_MS,
  });
}

/** The app on a migrated database, configured but not listening yet. */
export async function createApp(
  settings: AppSettings,
  adapter = createAdapter(),
): Promise<NestFastifyApplication> {
  const app = await NestFactory.create<NestFastifyApplication>(AppModule.with(settings), adapter, {
    logger: toNestLogger(adapter.getInstance().log),
    abortOnError: false,
    // Fastify's own JSON parser alone: what a form of another site can send is not understood here.
    bodyParser: false,
  });
  return configureApp(app);
}
