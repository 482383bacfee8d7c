import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { createOpenApiDocument } from './open-api.js';
import { createValidationPipe } from './shared/validation.js';
import { SwaggerModule } from '@nestjs/swagger';

/** A sheet of 5,000 rows and a drawing of as many nodes fit in it. */
export const BODY_LIMIT_BYTES = 4 * 1024 * 1024;

/** All that main and every HTTP test must set up alike on the app. */
export function configureApp(app: NestFastifyApplication): NestFastifyApplication {
  app.setGlobalPrefix('api/v1', { exclude: ['health/live', 'health/ready'] });
  app.useGlobalPipes(createValidationPipe());
  app
    .getHttpAdapter()
    .getInstance()
    .addContentTypeParser('text/csv', { parseAs: 'buffer' }, (_request, body, done) => {
      done(null, body);
    });
  SwaggerModule.setup('api/docs', app, () => createOpenApiDocument(app), {
    jsonDocumentUrl: 'api/openapi.json',
    yamlDocumentUrl: 'api/openapi.yaml',
    customSiteTitle: 'Lastheard API',
  });
  return app;
}
