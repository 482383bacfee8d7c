import cookie from '@fastify/cookie';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { observeRequests } from './observability/observe-requests.js';
import { createOpenApiDocument } from './open-api.js';
import { servePages } from './serve-pages.js';
import { POLICY_OF_DOCUMENT, SECURITY_HEADERS } from './security-headers.js';
import { keepAddresses } from './shared/keep-addresses.js';
import { createValidationPipe } from './shared/validation.js';
import { SwaggerModule } from '@nestjs/swagger';

/** A sheet of 5,000 rows and a drawing of as many nodes fit in it. */
export const BODY_LIMIT_BYTES = 4 * 1024 * 1024;

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** All that main and every HTTP test must set up alike on the app. */
export async function configureApp(app: NestFastifyApplication): Promise<NestFastifyApplication> {
  await app.register(cookie);
  keepAddresses(app);
  completeAnswers(app);
  observeRequests(app);
  app.setGlobalPrefix('api/v1', { exclude: ['health/live', 'health/ready'] });
  app.useGlobalPipes(createValidationPipe());
  const fastify = app.getHttpAdapter().getInstance();
  fastify.removeContentTypeParser('text/plain');
  fastify.addContentTypeParser(
    ['text/csv', XLSX],
    { parseAs: 'buffer' },
    (_request, body, done) => {
      done(null, body);
    },
  );
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
      if (request.url.startsWith('/api/v1/')) void reply.header('cache-control', 'no-store');
      else if (request.url.startsWith('/api/docs')) void reply.headers(POLICY_OF_DOCUMENT);
      done();
    });
}
