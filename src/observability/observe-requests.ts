import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { MetricsService } from './metrics.service.js';

/** Logs and measures every request once, when it is answered. Query and body are never logged. */
export function observeRequests(app: NestFastifyApplication): void {
  const metrics = app.get(MetricsService);
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onResponse', (request, reply, done) => {
      const { method, routeOptions, principal } = request;
      const { statusCode: status, elapsedTime } = reply;
      const route = routeOptions.url;
      metrics.measure({ method, route, status, seconds: elapsedTime / 1000 });
      request.log.info(
        {
          method,
          path: request.url.split('?')[0],
          route,
          status,
          milliseconds: Math.round(elapsedTime * 10) / 10,
          address: request.address,
          firm: principal?.firmId,
          actor: principal?.personId ?? principal?.passId,
        },
        'answered',
      );
      done();
    });
}
