import cookie from '@fastify/cookie';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { guardRoutes } from './guard-routes.js';
import { observeRequests } from './observability/observe-requests.js';
import { createOpenApiDocument } from './open-api.js';
import { readBodies } from './read-bodies.js';
import { refuseMalformed } from './refuse-malformed.js';
import { servePages } from './serve-pages.js';
import { POLICY_OF_DOCUMENT, SECURITY_HEADERS } from './security-headers.js';
import { isUnder } from './shared/is-under.js';
import { keepAddresses } from './shared/keep-addresses.js';
import { answerInLanguage } from './shared/request-language.js';
import { createValidationPipe } from './shared/validation.js';
import { SwaggerModule } from '@nestjs/swagger';

/** All that main and every HTTP test must set up alike on the app. */
export async function configureApp(app: NestFastifyApplication): Promise<NestFastifyApplication> {
  await app.register(cookie);
  keepAddresses(app);
  completeAnswers(app);
  answerInLanguage(app);
  observeRequests(app);
  refuseMalformed(app);
  readBodies(app);
  guardRoutes(app);
  app.setGlobalPrefix('api/v1', { exclude: ['health/live', 'health/ready'] });
  app.useGlobalPipes(createValidationPipe());
  await servePages(app);
  SwaggerModule.setup('api/docs', app, () => createOpenApiDocument(app), {
    jsonDocumentUrl: 'api/openapi.json',
    yamlDocumentUrl: 'api/openapi.yaml',
    customSiteTitle: 'Lastheard API',
  });
  return app;
}

/** Every answer names its request; what the API answers is for who asked, and stays in no cache. */
function completeAnswers(app: NestFastifyApplication): void {
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onRequest', (request, reply, done) => {
      void reply.headers(SECURITY_HEADERS).header('x-request-id', request.id);
      if (isUnder('/api/v1/', request)) void reply.header('cache-control', 'no-store');
      else if (isUnder('/api/docs', request)) void reply.headers(POLICY_OF_DOCUMENT);
      done();
    });
}
