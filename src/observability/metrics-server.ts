import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { collectDefaultMetrics, type Registry } from 'prom-client';

export interface MetricsServer {
  address: string;
  stop: () => Promise<void>;
}

/** Serves the metrics on a port of their own, which is for the machine or the inner network alone. */
export async function startMetricsServer(
  registry: Registry,
  host: string,
  port: number,
): Promise<MetricsServer> {
  collectDefaultMetrics({ register: registry, prefix: 'lastheard_' });
  const server = createServer((request, response) => {
    if (request.url !== '/metrics') {
      response.writeHead(404).end();
      return;
    }
    registry.metrics().then(
      (text) => response.writeHead(200, { 'content-type': registry.contentType }).end(text),
      () => response.writeHead(500).end(),
    );
  });
  server.listen(port, host);
  await once(server, 'listening');
  const { port: taken } = server.address() as AddressInfo;
  return {
    address: `http://${host}:${taken}/metrics`,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
