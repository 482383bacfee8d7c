import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyReply } from 'fastify';
import { observeRequests } from './observability/observe-requests.js';
import { createOpenApiDocument } from './open-api.js';
import { servePages } from './serve-pages.js';
import { createValidationPipe } from './shared/validation.js';
import { SwaggerModule } from '@nestjs/swagger';

/** A sheet of 5,000 rows and a drawing of as many nodes fit in it. */
export const BODY_LIMIT_BYTES = 4 * 1024 * 1024;

/** Pages load nothing but what the service itself serves, and nobody frames them. */
const SECURITY_HEADERS = {
  contentSecurityPolicy: {
    useDefaults: false,
    directives: {
      defaultSrc: ["'none'"],
      scriptSrc: ["'self'"],
      styleSrc: ["'self'"],
      imgSrc: ["'self'", 'data:'],
      fontSrc: ["'self'"],
      connectSrc: ["'self'"],
      manifestSrc: ["'self'"],
      workerSrc: ["'self'"],
      baseUri: ["'none'"],
      formAction: ["'self'"],
      frameAncestors: ["'none'"],
    },
  },
  referrerPolicy: { policy: 'no-referrer' },
  strictTransportSecurity: { maxAge: 31_536_000, includeSubDomains: true },
  xFrameOptions: { action: 'deny' },
} as const;

/** All that main and every HTTP test must set up alike on the app. */
export async function configureApp(app: NestFastifyApplication): Promise<NestFastifyApplication> {
  await app.register(cookie);
  await app.register(helmet, SECURITY_HEADERS);
  completeAnswers(app);
  observeRequests(app);
  app.setGlobalPrefix('api/v1', { exclude: ['health/live', 'health/ready'] });
  app.useGlobalPipes(createValidationPipe());
  const fastify = app.getHttpAdapter().getInstance();
  fastify.removeContentTypeParser('text/plain');
  fastify.addContentTypeParser('text/csv', { parseAs: 'buffer' }, (_request, body, done) => {
    done(null, body);
  });
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
      void reply.header('x-request-id', request.id);
      if (request.url.startsWith('/api/docs')) void reply.header(POLICY, policyOfDocument(reply));
      if (request.url.startsWith('/api/v1/')) void reply.header('cache-control', 'no-store');
      done();
    });
}

const POLICY = 'content-security-policy';

/** The page that shows the API document brings style elements of its own; no other page has any. */
function policyOfDocument(reply: FastifyReply): string {
  const policy = String(reply.getHeader(POLICY));
  return policy.replace("style-src 'self'", "style-src 'self' 'unsafe-inline'");
}
