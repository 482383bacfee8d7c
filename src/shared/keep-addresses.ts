import type { NestFastifyApplication } from '@nestjs/platform-fastify';

declare module 'fastify' {
  interface FastifyRequest {
    /** From where it came. `ip` is nothing once the connection is gone, and then the work goes on all the same. */
    address: string;
  }
}

/** Notes from where each request comes while its connection is there. */
export function keepAddresses(app: NestFastifyApplication): void {
  app
    .getHttpAdapter()
    .getInstance()
    .decorateRequest('address', '')
    .addHook('onRequest', (request, _reply, done) => {
      request.address = request.ip;
      done();
    });
}
