import { type NestInterceptor, RequestMethod, UseInterceptors } from '@nestjs/common';
import { MetadataScanner, ModulesContainer } from '@nestjs/core';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { FirmTransaction } from './database/firm-transaction.js';
import { InParts } from './shared/in-parts.decorator.js';
import { AccessGuard } from './access/access.guard.js';
import { RequestInterceptor } from './access/request.interceptor.js';

const GUARDED = '/api/v1/';

type Method = (this: object, ...args: unknown[]) => unknown;

/**
 * Nobody's request reaches a handler before the guard has let it through. A hook and not a guard of Nest's, and for plain
 * reads no interceptor: the two cost a read more than all else that this program does for it (decision 0153).
 */
export function guardRoutes(app: NestFastifyApplication): void {
  const guard = app.get(AccessGuard);
  const transaction = app.get(FirmTransaction);
  const server = app.getHttpAdapter().getInstance();
  server.addHook('preHandler', (request, reply, done) => {
    // By the route that was found: an address may be written otherwise, in escapes.
    if (request.routeOptions.url?.startsWith(GUARDED) !== true) return done();
    guard.letThrough(request, reply).then(
      () => {
        if (request.transaction?.mode !== 'read') done();
        else transaction.enterRead(request.transaction, done);
      },
      (error: Error) => done(error),
    );
  });
  // Whatever carries a version answers with it as its ETag; If-Match then names it.
  server.addHook('preSerialization', (request, reply, answer, done) => {
    const { version } = (answer ?? {}) as { version?: unknown };
    if (request.principal !== undefined && typeof version === 'number')
      void reply.header('etag', `"${version}"`);
    done(null, answer);
  });
  giveWork(app, transaction, app.get(RequestInterceptor));
}

/** Each app's own handlers, since what is noted at a class would be so for every app of the process. */
function giveWork(
  app: NestFastifyApplication,
  transaction: FirmTransaction,
  interceptor: NestInterceptor,
): void {
  const names = new MetadataScanner();
  const modules = [...app.get(ModulesContainer).values()];
  for (const { instance } of modules.flatMap(({ controllers }) => [...controllers.values()])) {
    const controller = instance as Record<string, Method>;
    for (const name of names.getAllMethodNames(Object.getPrototypeOf(controller) as object)) {
      const method = controller[name];
      if (method === undefined || !Reflect.hasMetadata('method', method)) continue;
      controller[name] = isPlainRead(method)
        ? readIn(transaction, method)
        : intercepted(interceptor, method);
    }
  }
}

function isPlainRead(method: Method): boolean {
  const isGet = Reflect.getMetadata('method', method) === RequestMethod.GET;
  return isGet && !Reflect.hasMetadata(InParts.KEY, method);
}

function readIn(transaction: FirmTransaction, method: Method): Method {
  return sameRoute(method, function (...args) {
    return transaction.runEntered(() => method.apply(this, args));
  });
}

function intercepted(interceptor: NestInterceptor, method: Method): Method {
  const handler = sameRoute(method, function (...args) {
    return method.apply(this, args);
  });
  UseInterceptors(interceptor)(handler as never);
  return handler;
}

/** What Nest knows of a handler stands at its function. */
function sameRoute(method: Method, handler: Method): Method {
  for (const key of Reflect.getMetadataKeys(method) as unknown[])
    Reflect.defineMetadata(key, Reflect.getMetadata(key, method), handler);
  return Object.defineProperty(handler, 'name', { value: method.name });
}
